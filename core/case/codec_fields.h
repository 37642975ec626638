// Reading and writing of single values for codec.cpp: one overload a type. Not for other files.
#pragma once
#include <fmt/format.h>

#include <algorithm>
#include <limits>

#include "core/case/codec.h"

namespace brimline::codec {

/// Collects the first fault met while reading one object.
struct Fault {
    std::optional<Malformed> first;
    std::size_t longest_text{
        std::numeric_limits<std::size_t>::max()};  // bytes; what a person enters is shorter
    void set(std::string field, std::string say) {
        if (!first) {
            first = Malformed{std::move(field), std::move(say)};
        }
    }
};

template <class T>
struct is_optional : std::false_type {};
template <class T>
struct is_optional<std::optional<T>> : std::true_type {};
template <class T>
struct is_vector : std::false_type {};
template <class T>
struct is_vector<std::vector<T>> : std::true_type {};
template <class T>
struct is_map : std::false_type {};
template <class T>
struct is_map<std::map<std::string, T>> : std::true_type {};
template <class T>
concept Enum = std::is_enum_v<T> && requires(T e) {
    names_of(e);
};
template <class T>
concept Fields = requires(T t) {
    T::fields(t, [](std::string_view, auto&) {});
};

/// "clear, milk, full-liquid"
template <class Names>
std::string listed(const Names& names) {
    std::string all;
    for (const auto& name : names) {
        all += (all.empty() ? "" : ", ") + std::string{name};
    }
    return all;
}

/// The exact decimal that a JSON number stands for; empty when it is no number or does not fit.
std::optional<Decimal> decimal_of(const Json& value);

void read(const Json& v, std::string_view f, std::string& out, Fault& fault);
void read(const Json& v, std::string_view f, bool& out, Fault& fault);
void read(const Json& v, std::string_view f, int& out, Fault& fault);
void read(const Json& v, std::string_view f, std::int64_t& out, Fault& fault);
void read(const Json& v, std::string_view f, Decimal& out, Fault& fault);
void read(const Json& v, std::string_view f, Millilitres& out, Fault& fault);
void read(const Json& v, std::string_view f, Instant& out, Fault& fault);
void read(const Json& v, std::string_view f, LocalDate& out, Fault& fault);
void read(const Json& v, std::string_view f, EntryRef& out, Fault& fault);
void read(const Json& v, std::string_view f, DayMonth& out, Fault& fault);
void read(const Json& v, std::string_view f, LastIntake& out, Fault& fault);
void read(const Json& v, std::string_view f, Loose& out, Fault& fault);
void read(const Json& v, std::string_view f, Words& out, Fault& fault);
void read(const Json& v, std::string_view f, NextStep& out, Fault& fault);
void read(const Json& v, std::string_view f, Role& out, Fault& fault);
template <Enum E>
void read(const Json& v, std::string_view f, E& out, Fault& fault);
template <Fields T>
void read(const Json& v, std::string_view f, T& out, Fault& fault);

Json write(const std::string& v);
Json write(bool v);
Json write(int v);
Json write(std::int64_t v);
Json write(Decimal v);
Json write(Millilitres v);
Json write(Instant v);
Json write(LocalDate v);
Json write(const EntryRef& v);
Json write(const DayMonth& v);
Json write(const LastIntake& v);
Json write(const Loose& v);
Json write(const Words& v);
Json write(const NextStep& v);
Json write(Role v);
template <Enum E>
Json write(E v) {
    return std::string{name_of(v)};
}
template <Fields T>
Json write(const T& v);

template <Enum E>
void read(const Json& v, std::string_view f, E& out, Fault& fault) {
    constexpr auto names = names_of(E{});
    if (v.is_string()) {
        for (std::size_t i = 0; i < names.size(); ++i) {
            if (names[i] == v.get_ref<const std::string&>()) {
                out = static_cast<E>(i);
                return;
            }
        }
    }
    fault.set(std::string{f}, fmt::format("allowed are {}", listed(names)));
}
template <class T>
void read(const Json& v, std::string_view f, std::vector<T>& out, Fault& fault) {
    if (!v.is_array()) {
        return fault.set(std::string{f}, "a list is needed");
    }
    for (const auto& item : v) {
        T one{};
        read(item, f, one, fault);
        out.push_back(std::move(one));
    }
}
template <class T>
void read(const Json& v, std::string_view f, std::map<std::string, T>& out, Fault& fault) {
    if (!v.is_object()) {
        return fault.set(std::string{f}, "an object is needed, a name and a value each");
    }
    for (const auto& [key, item] : v.items()) {
        read(item, fmt::format("{}.{}", f, key), out[key], fault);
    }
}
template <class T>
void read(const Json& v, std::string_view f, std::optional<T>& out, Fault& fault) {
    T one{};
    read(v, f, one, fault);
    out = std::move(one);
}

/// Names of the fields of T, in order.
template <class T>
std::vector<std::string> names_of_fields() {
    std::vector<std::string> names;
    T t{};
    T::fields(t, [&](std::string_view name, auto&) { names.emplace_back(name); });
    return names;
}
/// Reads the fields of T out of an object; does not look at other keys. A missing field that is not optional
/// is a fault.
template <class T>
void read_fields(const Json& object, std::string_view prefix, T& out, Fault& fault) {
    T::fields(out, [&](std::string_view name, auto& member) {
        const std::string path = prefix.empty() ? std::string{name} : fmt::format("{}.{}", prefix, name);
        if (const auto found = object.find(std::string{name}); found != object.end()) {
            read(*found, path, member, fault);
        } else if (!is_optional<std::decay_t<decltype(member)>>::value) {
            Fault allowed;  // what reading nothing would have complained of says what is allowed
            read(Json{}, path, member, allowed);
            fault.set(path, "is missing; " + allowed.first.value_or(Malformed{"", "a value is needed"}).say);
        }
    });
}
std::string nearest_hint(std::string_view word, const std::vector<std::string>& names);

template <Fields T>
void read(const Json& v, std::string_view f, T& out, Fault& fault) {
    if (!v.is_object()) {
        return fault.set(std::string{f}, "an object is needed");
    }
    const auto names = names_of_fields<T>();
    for (const auto& [key, item] : v.items()) {
        if (std::find(names.begin(), names.end(), key) == names.end()) {
            fault.set(fmt::format("{}.{}", f, key), "is not known here" + nearest_hint(key, names));
        }
    }
    read_fields(v, f, out, fault);
}

template <class T>
Json write(const std::vector<T>& v) {
    Json list = Json::array();
    for (const auto& item : v) {
        list.push_back(write(item));
    }
    return list;
}
template <class T>
Json write(const std::map<std::string, T>& v) {
    Json object = Json::object();
    for (const auto& [key, item] : v) {
        object[key] = write(item);
    }
    return object;
}
/// All fields that have a value.
template <class T>
Json write_fields(const T& value) {
    Json object = Json::object();
    T::fields(value, [&](std::string_view name, const auto& member) {
        if constexpr (is_optional<std::decay_t<decltype(member)>>::value) {
            if (member) {
                object[std::string{name}] = write(*member);
            }
        } else {
            object[std::string{name}] = write(member);
        }
    });
    return object;
}
template <Fields T>
Json write(const T& v) {
    return write_fields(v);
}

}  // namespace brimline::codec
