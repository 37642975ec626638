// Taking names apart at their spaces.
#include "app/kiosk/screens/names.h"

#include <vector>

#include "app/kiosk/touch/text_draft.h"

namespace brimline::screens {
namespace {

std::vector<std::string_view> words_of(std::string_view name) {
    std::vector<std::string_view> words;
    while (!name.empty()) {
        const auto end = std::min(name.find(' '), name.size());
        if (end > 0) {
            words.push_back(name.substr(0, end));
        }
        name.remove_prefix(std::min(end + 1, name.size()));
    }
    return words;
}

}  // namespace

std::string listed_name(const PatientKnown& patient) {
    const auto family = patient.family_name.value_or("");
    return patient.given_name ? family + ", " + *patient.given_name : family;
}

std::string initials_of(std::string_view name) {
    const auto words = words_of(name);
    std::string initials;
    for (std::size_t i = words.size() > 2 ? words.size() - 2 : 0; i < words.size(); ++i) {
        const auto letters = touch::letters_of(words[i]);
        initials += letters.empty() ? "" : letters.front();
    }
    return initials;
}

std::string short_name(std::string_view name) {
    const auto words = words_of(name);
    if (words.size() < 3) {
        return std::string{name};
    }
    return std::string{words.front()} + " " + std::string{words.back()};
}

std::string short_name(const Desk& desk, std::string_view id) { return short_name(desk.name_of_person(id)); }

}  // namespace brimline::screens
