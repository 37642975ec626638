// All words on the glass, by key, from one file a language. No sentence stands in code.
// A key that the file lacks is shown as the key itself and remembered, so that a test can fail on it.
#pragma once

#include <initializer_list>
#include <map>
#include <set>
#include <string>
#include <string_view>
#include <tl/expected.hpp>
#include <utility>

namespace brimline::touch {

/// The plural forms that the languages of the file format know, by the names of Unicode CLDR.
enum class Plural { one, few, many, other };

/// The plural form that `language` (two letters) uses for a whole number.
[[nodiscard]] Plural plural_form(std::string_view language, long number);

/// A named value that replaces {name} in a text.
using Named = std::pair<std::string_view, std::string_view>;

/// The words of one language.
class Words {
public:
    /// Reads a language file. Errors: a sentence that names the file, the key and what is wrong with it.
    [[nodiscard]] static tl::expected<Words, std::string> load(const std::string& file);
    /// The same from the file's text; `name` is used in errors.
    [[nodiscard]] static tl::expected<Words, std::string> parse(std::string_view text,
                                                                const std::string& name);

    /// The text of a key with its placeholders filled in.
    [[nodiscard]] std::string say(std::string_view key, std::initializer_list<Named> values = {}) const;
    /// The text of a key in the plural form for `number`, which also fills {n}.
    [[nodiscard]] std::string count(std::string_view key, long number,
                                    std::initializer_list<Named> values = {}) const;
    /// True when the file has this key.
    [[nodiscard]] bool has(std::string_view key) const { return texts_.contains(std::string{key}); }
    /// Two letters, from the file.
    [[nodiscard]] const std::string& language() const { return language_; }
    /// The mark between units and tenths, from the file's key "touch.decimal-mark".
    [[nodiscard]] std::string decimal_mark() const { return say("touch.decimal-mark"); }
    /// For layout tests: the same words with each made 1.4 times as long, values left alone.
    [[nodiscard]] Words stretched() const;
    /// Keys and placeholders that were asked for and are not there; each a short sentence.
    [[nodiscard]] const std::set<std::string>& missing() const { return missing_; }

private:
    using Forms = std::map<Plural, std::string>;
    [[nodiscard]] std::string fill(std::string_view key, std::string_view text,
                                   std::initializer_list<Named> values, const std::string* number) const;

    std::string language_;
    std::map<std::string, Forms, std::less<>> texts_;
    mutable std::set<std::string> missing_;
};

}  // namespace brimline::touch
