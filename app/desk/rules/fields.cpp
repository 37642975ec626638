// Reading of the one-line shapes, and the check of a JSON object against one.
#include "app/desk/rules/fields.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>
#include <cstdio>
#include <cstdlib>

#include "app/desk/rules/written_time.h"
#include "core/clinic/nearest.h"

namespace brimline::worked {
namespace {

using Kind = Type::Kind;
using Node = JsonNode::Kind;

/// Larger numbers are no clinical ones, and every sum of smaller ones fits.
constexpr Decimal largest_whole = Decimal::of(10'000'000);
constexpr Decimal largest_in_seconds = Decimal::of(1'000'000'000);
constexpr Decimal largest_decimal = Decimal::of(100'000);
constexpr Decimal largest_in_tenths = Decimal::of(10'000);

struct Named {
    std::string_view word;
    Kind kind;
};
constexpr std::array<Named, 9> simple{{{"text", Kind::text},
                                       {"whole", Kind::whole},
                                       {"decimal", Kind::decimal},
                                       {"tenths", Kind::tenths},
                                       {"seconds", Kind::seconds},
                                       {"true/false", Kind::truth},
                                       {"time", Kind::time},
                                       {"zone", Kind::zone},
                                       {"words", Kind::words}}};
constexpr std::array<Named, 3> many{
    {{"list of ", Kind::list}, {"set of ", Kind::set}, {"span of ", Kind::span}}};

/// Takes a shape apart from the left.
class Shape {
public:
    explicit Shape(std::string_view text) : rest_{text} {}

    Fields fields(char end) {
        Fields found;
        while (!rest_.empty() && rest_.front() != end) {
            Field field;
            const auto colon = rest_.find(": ");
            must(colon != std::string_view::npos);
            field.name = rest_.substr(0, colon);
            rest_.remove_prefix(colon + 2);
            field.optional = field.name.back() == '?';
            if (field.optional) {
                field.name.pop_back();
            }
            field.type = type();
            found.push_back(std::move(field));
            take(", ");
        }
        return found;
    }

private:
    std::string_view rest_;

    static void must(bool good) {
        if (!good) {
            std::fputs("the shape of a rule's fields is not well formed\n", stderr);
            std::abort();
        }
    }
    bool take(std::string_view word) {
        if (rest_.substr(0, word.size()) != word) {
            return false;
        }
        rest_.remove_prefix(word.size());
        return true;
    }
    /// "a|b c|d", up to the comma or bracket behind it.
    std::vector<std::string> words() {
        const auto list = rest_.substr(0, rest_.find_first_of(",}"));
        rest_.remove_prefix(list.size());
        std::vector<std::string> found;
        for (std::size_t at = 0; at <= list.size();) {
            const auto end = std::min(list.find('|', at), list.size());
            found.emplace_back(list.substr(at, end - at));
            at = end + 1;
        }
        return found;
    }
    Type type() {
        Type type;
        if (take("{")) {
            type.kind = Kind::object;
            type.fields = fields('}');
            must(take("}"));
            return type;
        }
        if (take("one of ")) {
            type.kind = Kind::word;
            type.words = words();
            return type;
        }
        for (const Named& named : many) {
            if (take(named.word)) {
                type.kind = named.kind;
                type.item.push_back(this->type());
                return type;
            }
        }
        for (const Named& named : simple) {
            if (take(named.word)) {
                type.kind = named.kind;
                return type;
            }
        }
        must(false);
        return type;
    }
};

std::optional<std::string> misfit_of(const Type& type, const JsonNode& node, bool due,
                                     const std::string& where);

Decimal largest_of(Kind kind) {
    switch (kind) {
        case Kind::decimal:
            return largest_decimal;
        case Kind::tenths:
            return largest_in_tenths;
        case Kind::seconds:
            return largest_in_seconds;
        default:
            return largest_whole;
    }
}

/// An expected number may be written finer than any that is reckoned with; its first six places must be a
/// number.
bool fine_expectation(Kind kind, const JsonNode& node, bool due) {
    constexpr std::size_t places_and_point = 7;
    const auto cut = std::string_view{node.text}.substr(0, node.text.find('.') + places_and_point);
    return !due && kind != Kind::whole &&
           (node.is(Node::number) || (node.is(Node::text) && Decimal::parse(cut).has_value()));
}

std::optional<std::string> number_misfit(Kind kind, const JsonNode& node, bool due,
                                         const std::string& where) {
    if (fine_expectation(kind, node, due)) {
        return std::nullopt;
    }
    const auto number = decimal_of(node);
    const std::string shown = node.is(Node::number) || node.is(Node::text)
                                  ? "\"" + node.text + "\""
                                  : std::string{kind_words(node.kind)};
    if (!number) {
        return fmt::format("{} must be a number of at most six decimals, and is {}", where, shown);
    }
    const Decimal most = largest_of(kind);
    if (*number > most || *number < Decimal{} - most) {
        return fmt::format("{} may be {} at most, and is {}", where, most.text(), shown);
    }
    if (kind == Kind::whole && !number->whole()) {
        return fmt::format("{} must be a whole number, and is {}", where, shown);
    }
    if (kind == Kind::tenths && !number->whole(10)) {
        return fmt::format("{} is kept in tenths, and is {}", where, shown);
    }
    return std::nullopt;
}

std::optional<std::string> list_misfit(const Type& type, const JsonNode& node, bool due,
                                       const std::string& where) {
    if (!node.is(Node::list)) {
        return fmt::format("{} must be a list, and is {}", where, kind_words(node.kind));
    }
    for (std::size_t i = 0; i < node.items.size(); ++i) {
        if (auto wrong = misfit_of(type.item.front(), node.items[i], due, fmt::format("{}[{}]", where, i))) {
            return wrong;
        }
    }
    return std::nullopt;
}

std::optional<std::string> object_misfit(const Type& type, const JsonNode& node, bool due,
                                         const std::string& where) {
    if (!node.is(Node::object)) {
        return fmt::format("{} must be an object, and is {}", where, kind_words(node.kind));
    }
    if (type.kind == Kind::object) {
        return misfit(type.fields, node, due, where + ".");
    }
    for (const JsonMember& member : node.members) {
        if (!member.value.is(Node::text) && !member.value.is(Node::null)) {
            return fmt::format("{}.{} must be a text, and is {}", where, member.name,
                               kind_words(member.value.kind));
        }
    }
    return std::nullopt;
}

std::optional<std::string> word_misfit(Kind kind, const JsonNode& node, const std::string& where) {
    if (!node.is(Node::text)) {
        return fmt::format("{} must be {}, and is {}", where,
                           kind == Kind::time ? "a time in quotes" : "a text", kind_words(node.kind));
    }
    if (kind == Kind::time && !read_written(node.text)) {
        return fmt::format("{} must be a date or a time, as 2026-11-25 or 2026-11-25 09:30, and is \"{}\"",
                           where, node.text);
    }
    return std::nullopt;
}

/// A word that is not on the list, with the nearest and the list.
std::optional<std::string> unknown_word(const Type& type, const JsonNode& node, const std::string& where) {
    if (!node.is(Node::text)) {
        return word_misfit(Kind::text, node, where);
    }
    if (std::find(type.words.begin(), type.words.end(), node.text) != type.words.end()) {
        return std::nullopt;
    }
    const auto near = nearest_id(node.text, type.words);
    return fmt::format("{} is \"{}\", which is none of {}{}", where, node.text, fmt::join(type.words, ", "),
                       near.empty() ? "" : fmt::format("; did you mean \"{}\"?", near));
}

std::optional<std::string> misfit_of(const Type& type, const JsonNode& node, bool due,
                                     const std::string& where) {
    if (node.is(Node::null)) {
        return std::nullopt;  // null = not known, wherever it stands
    }
    switch (type.kind) {
        case Kind::text:
            // Digits may come without their quotes: an identifier is still a text.
            return node.is(Node::number) ? std::nullopt : word_misfit(type.kind, node, where);
        case Kind::word:
            return unknown_word(type, node, where);
        case Kind::time:
        case Kind::zone:
            return word_misfit(type.kind, node, where);
        case Kind::whole:
        case Kind::decimal:
        case Kind::tenths:
        case Kind::seconds:
            return number_misfit(type.kind, node, due, where);
        case Kind::truth:
            return node.is(Node::boolean) ? std::nullopt
                                          : std::optional{fmt::format("{} must be true or false, and is {}",
                                                                      where, kind_words(node.kind))};
        case Kind::list:
        case Kind::set:
        case Kind::span:
            return list_misfit(type, node, due, where);
        case Kind::object:
        case Kind::words:
            return object_misfit(type, node, due, where);
    }
    std::abort();  // no type: a corrupted program must not go on
}

}  // namespace

Fields read_fields(std::string_view text) { return Shape{text}.fields('\0'); }

std::optional<Decimal> decimal_of(const JsonNode& node) {
    return node.is(Node::number) || node.is(Node::text) ? Decimal::parse(node.text) : std::nullopt;
}

std::vector<std::string> names_of(const Fields& fields) {
    std::vector<std::string> names;
    names.reserve(fields.size());
    for (const Field& field : fields) {
        names.push_back(field.name);
    }
    return names;
}

std::optional<std::string> misfit(const Fields& fields, const JsonNode& object, bool due,
                                  const std::string& where) {
    for (const JsonMember& member : object.members) {
        const auto known = std::find_if(fields.begin(), fields.end(),
                                        [&](const Field& field) { return field.name == member.name; });
        if (known == fields.end()) {
            return fmt::format("\"{}{}\" is no field of it{}", where, member.name,
                               did_you_mean(member.name, names_of(fields)));
        }
        if (auto wrong = misfit_of(known->type, member.value, due, where + member.name)) {
            return wrong;
        }
    }
    for (const Field& field : fields) {
        const JsonNode* given = object.find(field.name);
        if (due && !field.optional && (given == nullptr || given->is(Node::null))) {
            return fmt::format("\"{}{}\" is missing", where, field.name);
        }
    }
    return std::nullopt;
}

}  // namespace brimline::worked
