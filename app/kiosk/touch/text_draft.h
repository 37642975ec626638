// A text being typed on the screen's keyboard or a real one: whole letters only, never longer than allowed.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "app/kiosk/touch/scan.h"

namespace brimline::touch {

/// What is typed so far, as UTF-8.
class TextDraft {
public:
    explicit TextDraft(std::size_t most_letters = 60) : most_{most_letters} {}

    /// Adds letters; those beyond the limit are refused (false).
    bool add(std::string_view letters);
    /// Takes back the last letter.
    void erase();
    /// What a real keyboard typed; returns true when Enter was among it.
    bool take(const std::vector<Stroke>& typing);
    /// Puts a known text in.
    void set(std::string_view text);
    [[nodiscard]] const std::string& text() const { return text_; }
    /// Letters, not bytes.
    [[nodiscard]] std::size_t letters() const;
    [[nodiscard]] std::size_t most_letters() const { return most_; }

private:
    std::size_t most_;
    std::string text_;
};

/// The letters of a UTF-8 text, one string each.
[[nodiscard]] std::vector<std::string> letters_of(std::string_view text);

}  // namespace brimline::touch
