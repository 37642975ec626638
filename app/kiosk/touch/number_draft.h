// A number being typed on a keypad: only what could become a number can be typed.
// Out-by-ten slips come from the point and the zero, so a second point is refused and a leading zero is
// added.
#pragma once

#include <optional>
#include <string>

namespace brimline::touch {

/// The keys of a keypad.
enum class PadKey { d0, d1, d2, d3, d4, d5, d6, d7, d8, d9, point, erase };

/// What is typed so far. It starts empty unless a value is proposed; the first key replaces a proposal.
class NumberDraft {
public:
    /// `digits` before the point, `decimals` after it.
    explicit NumberDraft(int digits = 4, int decimals = 0) : digits_{digits}, decimals_{decimals} {}

    /// Puts a value in the box that the first key replaces (the remainder of a part syringe).
    void propose(std::string text);
    /// One key; returns false when it was refused.
    bool press(PadKey key);
    /// As typed, with a point whatever the language.
    [[nodiscard]] const std::string& text() const { return text_; }
    /// As shown, with the language's decimal mark.
    [[nodiscard]] std::string shown(const std::string& decimal_mark) const;
    /// The value in tenths; none while empty. The point at the end counts as none.
    [[nodiscard]] std::optional<long> in_tenths() const;
    /// The value as a whole number; none while empty or with a decimal that is not 0.
    [[nodiscard]] std::optional<long> whole() const;
    [[nodiscard]] bool empty() const { return text_.empty(); }
    void clear() {
        text_.clear();
        proposed_ = false;
    }

private:
    int digits_;
    int decimals_;
    std::string text_;
    bool proposed_{false};
};

}  // namespace brimline::touch
