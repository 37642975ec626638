// Events and lines at the borders: every kind of event comes back as it was written, and a line with an
// unknown or a missing field says which.
#include "tests/catch.h"
#include "tests/core/bed_looks.h"

using namespace brimline;
using namespace brimline::test;

namespace {

/// Fills a field with something that is not its default, so that a field that is lost is seen.
struct Filler {
    bool bare{false};  // only what must be there
    int n{0};
    void operator()(std::string_view, std::string& v) { v = "t" + std::to_string(++n); }
    void operator()(std::string_view, bool& v) { v = true; }
    void operator()(std::string_view, int& v) { v = ++n; }
    void operator()(std::string_view, std::int64_t& v) { v = ++n; }
    void operator()(std::string_view, Decimal& v) { v = Decimal::of_millionths(1'250'000 + ++n * 1000); }
    void operator()(std::string_view, Millilitres& v) { v = Millilitres::of_tenths(101 + ++n); }
    void operator()(std::string_view, Instant& v) { v = time_of("09:00") + minutes{++n}; }
    void operator()(std::string_view, LocalDate& v) { v = *parse_date("2026-11-24"); }
    void operator()(std::string_view, EntryRef& v) { v.seq = ++n; }
    void operator()(std::string_view, DayMonth& v) { v = {14, 3}; }
    void operator()(std::string_view, LastIntake& v) { v = {LastIntake::Kind::at, time_of("07:00")}; }
    void operator()(std::string_view, Loose& v) { v.text = "7.0"; }
    void operator()(std::string_view, Words& v) { v.list = {"chin-lift", "suction"}; }
    void operator()(std::string_view, NextStep& v) { v = {*parse_date("2026-12-02"), "call again"}; }
    void operator()(std::string_view, Role& v) { v = Role::nurse; }
    template <class E>
    requires std::is_enum_v<E>
    void operator()(std::string_view, E& v) { v = static_cast<E>(1); }
    template <class T>
    void operator()(std::string_view f, std::optional<T>& v) {
        if (!bare) {
            (*this)(f, v.emplace());
        }
    }
    template <class T>
    void operator()(std::string_view f, std::vector<T>& v) {
        if (!bare) {
            (*this)(f, v.emplace_back());
        }
    }
    template <class T>
    void operator()(std::string_view f, std::map<std::string, T>& v) {
        if (!bare) {
            (*this)(f, v["key"]);
        }
    }
    template <class T>
    requires requires(T t, Filler f) { T::fields(t, f); }
    void operator()(std::string_view, T& v) { T::fields(v, *this); }
};

template <std::size_t I = 0, class F>
void each_event(F&& f) {
    if constexpr (I < std::variant_size_v<AnyEvent>) {
        f(std::type_identity<std::variant_alternative_t<I, AnyEvent>>{});
        each_event<I + 1>(f);
    }
}

std::string fault_of(const std::string& line) {
    const auto json = parse_json(line);
    if (!json) {
        return json.error().say;
    }
    const auto read = read_command(*json);
    return read ? "none" : read.error().field + " " + read.error().say;
}

}  // namespace

TEST_CASE("every kind of event comes back equal, full and bare, with its stamp (7-journal)", "[codec]") {
    int kinds = 0;
    each_event([&]<class T>(std::type_identity<T>) {
        T full{};
        Filler fill;
        T::fields(full, fill);
        T bare{};
        Filler least{true, 0};
        T::fields(bare, least);
        for (const T& value : {full, bare}) {
            Stamp stamp;
            stamp.at = time_of("10:00");
            stamp.happened = time_of("09:55");
            stamp.said_by = "ilse";
            stamp.how = How::paper;
            stamp.script = true;
            INFO(T::spec.name);
            const auto payload = payload_of(stamp, Event{value});
            Stamp back;
            back.at = stamp.at;
            const auto event = read_event(T::spec.name, payload, back);
            REQUIRE(event.has_value());
            CHECK(std::get<T>(*event) == value);
            CHECK(back.happened == stamp.happened);
            CHECK(back.said_by == stamp.said_by);
            CHECK(back.how == How::paper);
            CHECK(back.script);
        }
        CHECK(kind_of(Event{full}) == T::spec.name);
        ++kinds;
    });
    CHECK(kinds == static_cast<int>(std::variant_size_v<AnyEvent>));
}

TEST_CASE("a kind of event that is not known is said, not skipped (7-journal)", "[codec]") {
    Stamp stamp;
    CHECK_FALSE(read_event("no-such-kind", "{}", stamp).has_value());
    CHECK_FALSE(read_event("syringe-in", "[]", stamp).has_value());
    CHECK_FALSE(read_event("syringe-in", "{}", stamp).has_value());
}

TEST_CASE("every command refuses a field that it does not know (10-decisions B3)", "[codec]") {
    for (const auto& name : command_names()) {
        const auto fault = fault_of(R"({"by":"x","case":"A","do":")" + name + R"(","bogus_field":1})");
        INFO(name << ": " << fault);
        CHECK(fault.find("bogus_field is not a field of " + name) == 0);
    }
}

TEST_CASE("a missing field is named (10-decisions B3)", "[codec]") {
    CHECK(fault_of(R"({"by":"x","case":"A","do":"dose","drug":"propofol","unit":"mg"})")
              .find("amount is missing") == 0);
    CHECK(fault_of(R"({"by":"x","case":"A","do":"part-syringe"})").find("ml is missing") == 0);
    CHECK(fault_of(R"({"case":"A","do":"go"})").find("by is missing") == 0);
    CHECK(fault_of(R"({"by":"x","do":"go"})").find("case is missing") == 0);
    CHECK(fault_of(R"({"by":"x","case":"A","do":"read-back"})").find("ml is missing") == 0);
    CHECK(fault_of(R"({"by":"x","case":"A","do":"vitals","hr":70})").find("systolic is missing") == 0);
}

TEST_CASE(
    "an unknown command names the nearest, two keys alike and bad values are malformed (10-decisions B3)",
    "[codec]") {
    CHECK(fault_of(R"({"by":"x","case":"A","do":"syringe-inn"})").find("did you mean syringe-in?") !=
          std::string::npos);
    CHECK(fault_of(R"({"by":"x","by":"y","case":"A","do":"go"})").find("twice") != std::string::npos);
    CHECK(fault_of(R"({"by":"x","case":"A","do":"part-syringe","ml":12.34})").find("ml ") == 0);
    CHECK(fault_of(R"({"by":"x","case":"A","do":"depth","moaas":6})").find("moaas ") == 0);
    CHECK(fault_of(R"({"by":"x","case":"A","do":"go","at":"2026-11-25T09:00:00"})").find("at ") == 0);
    CHECK(fault_of(R"({"by":"x","case":"A","do":"go"})") == "none");
}

TEST_CASE("no findings is said only after the whole list was read (3-case, Look)", "[codec]") {
    CHECK(fault_of(R"({"by":"x","case":"A","do":"no-findings","list_read":false})").find("list_read ") == 0);
    CHECK(fault_of(R"({"by":"x","case":"A","do":"no-findings","list_read":true})") == "none");
}
