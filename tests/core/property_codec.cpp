// Every command and every event comes back from its written form as it went in, with values that RapidCheck
// makes up.
#include <rapidcheck.h>

#include "core/case/codec_fields.h"
#include "core/case/command.h"
#include "tests/catch.h"

using namespace brimline;

namespace {

/// Fills each field with something made up; lists and optional fields may be empty.
struct AnyFields {
    void operator()(std::string_view, std::string& v) {
        v = *rc::gen::container<std::string>(
            rc::gen::element('a', 'Z', '0', ' ', '"', '\\', '\n', '/', '\x7f'));
        v += *rc::gen::element<std::string>("", "é", "ż", "€", "😀");
    }
    void operator()(std::string_view, bool& v) { v = *rc::gen::arbitrary<bool>(); }
    void operator()(std::string_view, int& v) { v = *rc::gen::inRange(-100'000, 100'000); }
    void operator()(std::string_view, std::int64_t& v) {
        v = *rc::gen::inRange<std::int64_t>(0, 1'000'000'000);
    }
    void operator()(std::string_view, Decimal& v) {
        v = Decimal::of_millionths(*rc::gen::inRange<std::int64_t>(-500'000'000, 500'000'000));
    }
    void operator()(std::string_view, Millilitres& v) {
        v = Millilitres::of_tenths(*rc::gen::inRange(-9999, 9999));
    }
    void operator()(std::string_view, Instant& v) {
        v = Instant::of_us(*rc::gen::inRange<std::int64_t>(0, 4'000'000'000) * 1'000'000 +
                           1000 * *rc::gen::inRange(0, 1000));
    }
    void operator()(std::string_view, LocalDate& v) {
        v = LocalDate{std::chrono::sys_days{std::chrono::days{*rc::gen::inRange(-10'000, 40'000)}}};
    }
    void operator()(std::string_view, EntryRef& v) { v.seq = *rc::gen::inRange<std::int64_t>(1, 1'000'000); }
    void operator()(std::string_view, DayMonth& v) {
        v = *rc::gen::arbitrary<bool>() ? DayMonth{}
                                        : DayMonth{*rc::gen::inRange(1, 29), *rc::gen::inRange(1, 13)};
    }
    void operator()(std::string_view f, LastIntake& v) {
        v.kind =
            *rc::gen::element(LastIntake::Kind::at, LastIntake::Kind::not_known, LastIntake::Kind::vomiting);
        if (v.kind == LastIntake::Kind::at) {
            (*this)(f, v.at);
        }
    }
    void operator()(std::string_view f, Loose& v) { (*this)(f, v.text); }
    void operator()(std::string_view, Words& v) {
        v.list = {*rc::gen::element<std::string>("one", "two"), "three"};
    }
    void operator()(std::string_view f, NextStep& v) {
        const int what = *rc::gen::inRange(0, 3);  // a date, words, or both
        if (what != 1) {
            (*this)(f, v.date.emplace());
        }
        if (what != 0) {
            v.words = *rc::gen::element<std::string>("call again", "letter");
        }
    }
    void operator()(std::string_view, Role& v) {
        v = *rc::gen::element(Role::assistant, Role::physician, Role::nurse);
    }
    template <class E>
    requires std::is_enum_v<E>
    void operator()(std::string_view, E& v) {
        v = static_cast<E>(*rc::gen::inRange<std::size_t>(0, names_of(E{}).size()));
    }
    template <class T>
    void operator()(std::string_view f, std::optional<T>& v) {
        if (*rc::gen::arbitrary<bool>()) {
            (*this)(f, v.emplace());
        }
    }
    template <class T>
    void operator()(std::string_view f, std::vector<T>& v) {
        v.resize(*rc::gen::inRange<std::size_t>(0, 4));
        for (auto& item : v) {
            (*this)(f, item);
        }
    }
    template <class T>
    void operator()(std::string_view f, std::map<std::string, T>& v) {
        const int count = *rc::gen::inRange(0, 4);
        for (int i = 0; i < count; ++i) {
            (*this)(f, v["key " + std::to_string(i)]);
        }
    }
    template <class T>
    requires requires(T t, AnyFields f) { T::fields(t, f); }
    void operator()(std::string_view, T& v) { T::fields(v, *this); }
};

template <class V, std::size_t I = 0, class F>
void each(F&& f) {
    if constexpr (I < std::variant_size_v<V>) {
        f(std::type_identity<std::variant_alternative_t<I, V>>{});
        each<V, I + 1>(f);
    }
}

template <class T>
void comes_back() {
    T value{};
    AnyFields any;
    T::fields(value, any);
    const auto text = codec::write_fields(value).dump();
    const auto read = parse_json(text);
    RC_ASSERT(read.has_value());
    T back{};
    codec::Fault fault;
    codec::read_fields(*read, "", back, fault);
    RC_LOG() << T::spec.name << ' ' << text << ' '
             << (fault.first ? fault.first->field + " " + fault.first->say : "") << '\n';
    RC_ASSERT(!fault.first);
    RC_ASSERT(back == value);
}

template <class T>
void event_comes_back() {
    T value{};
    AnyFields any;
    T::fields(value, any);
    Stamp stamp;
    AnyFields{}("", stamp.at);
    AnyFields{}("", stamp.happened);
    const auto payload = payload_of(stamp, Event{value});
    RC_LOG() << T::spec.name << ' ' << payload << '\n';
    Stamp back;
    back.at = stamp.at;
    const auto event = read_event(T::spec.name, payload, back);
    RC_ASSERT(event.has_value());
    RC_ASSERT(std::get<T>(*event) == value);
    RC_ASSERT((back.happened == stamp.happened));
}

}  // namespace

TEST_CASE("the fields of every command come back as they were written", "[property][codec]") {
    int kinds = 0;
    each<AnyStatement>([&]<class T>(std::type_identity<T>) {
        CHECK(rc::check(std::string{T::spec.name}, [] { comes_back<T>(); }));
        ++kinds;
    });
    CHECK(kinds == static_cast<int>(std::variant_size_v<AnyStatement>));
}

TEST_CASE("every event comes back from its payload as it was", "[property][codec]") {
    each<AnyEvent>([]<class T>(std::type_identity<T>) {
        CHECK(rc::check(std::string{T::spec.name}, [] { event_comes_back<T>(); }));
    });
}
