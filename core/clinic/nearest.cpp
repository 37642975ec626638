// Edit distance with neighbour swaps (optimal string alignment), on short words.
#include "core/clinic/nearest.h"

#include <algorithm>
#include <array>
#include <cstddef>

namespace brimline {
namespace {

constexpr std::size_t longest = 64;

char small(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }

template <class Word>
std::string nearest_of(std::string_view word, std::span<const Word> list) {
    std::string_view best;
    int best_steps = 0;
    for (const std::string_view known : list) {
        const int steps = edit_distance(word, known);
        const int allowed = std::max(2, static_cast<int>(known.size()) / 3);
        if (steps <= allowed && steps < static_cast<int>(known.size()) &&
            (best.empty() || steps < best_steps)) {
            best = known;
            best_steps = steps;
        }
    }
    return std::string{best};
}

}  // namespace

int edit_distance(std::string_view a, std::string_view b) {
    a = a.substr(0, longest);
    b = b.substr(0, longest);
    std::array<std::array<int, longest + 1>, 3> rows{};  // the row being filled and the two before it
    for (std::size_t j = 0; j <= b.size(); ++j) {
        rows[0][j] = static_cast<int>(j);
    }
    for (std::size_t i = 1; i <= a.size(); ++i) {
        auto& row = rows[i % 3];
        const auto& above = rows[(i + 2) % 3];
        const auto& two_above = rows[(i + 1) % 3];
        row[0] = static_cast<int>(i);
        for (std::size_t j = 1; j <= b.size(); ++j) {
            const bool same = small(a[i - 1]) == small(b[j - 1]);
            row[j] = std::min({above[j] + 1, row[j - 1] + 1, above[j - 1] + (same ? 0 : 1)});
            if (i > 1 && j > 1 && small(a[i - 1]) == small(b[j - 2]) && small(a[i - 2]) == small(b[j - 1])) {
                row[j] = std::min(row[j], two_above[j - 2] + 1);
            }
        }
    }
    return rows[a.size() % 3][b.size()];
}

std::string nearest_id(std::string_view word, std::span<const std::string> list) {
    return nearest_of(word, list);
}

std::string nearest_id(std::string_view word, std::span<const std::string_view> list) {
    return nearest_of(word, list);
}

std::string did_you_mean(std::string_view word, const std::vector<std::string>& list) {
    const std::string near = nearest_id(word, list);
    return near.empty() ? std::string{} : ", did you mean \"" + near + "\"?";
}

}  // namespace brimline
