// The scanner collector: what is fast and long is a scan, everything else is typing and comes out whole.
#include "app/kiosk/touch/scan.h"
#include "tests/catch.h"

using namespace brimline::touch;

namespace {

/// Characters with one gap between all of them; returns the time after the last.
Seconds feed(ScanCollector& collector, std::string_view text, Seconds start, Seconds gap) {
    for (const char c : text) {
        const Key key = c == '\x1d' ? Key::group_separator : Key::none;
        collector.add({key, key == Key::none ? static_cast<char32_t>(c) : U'\0', start});
        start += gap;
    }
    return start;
}

std::string typed(ScanCollector& collector) {
    std::string text;
    for (const Stroke& stroke : collector.take_typing()) {
        text += stroke.key == Key::none ? static_cast<char>(stroke.character) : '#';
    }
    return text;
}

}  // namespace

TEST_CASE("a burst that ends with Enter, keypad Enter or Tab is one scan and types nothing",
          "[touch][scan]") {
    for (const Key end : {Key::enter, Key::keypad_enter, Key::tab}) {
        ScanCollector collector;
        const Seconds last = feed(collector,
                                  "0102001234026413\x1d"
                                  "10DW-2641",
                                  1, 0.001);
        collector.add({end, 0, last});
        CHECK(collector.take_scans() == std::vector<std::string>{"0102001234026413\x1d"
                                                                 "10DW-2641"});
        collector.pass(last + 1);
        CHECK(typed(collector).empty());
        CHECK(collector.next_wake() < 0);
    }
}

TEST_CASE("a burst without an end key is a scan after 100 ms of silence", "[touch][scan]") {
    ScanCollector collector;
    const Seconds last = feed(collector, "HM-4471", 1, 0.002) - 0.002;
    collector.pass(last + 0.099);
    CHECK(collector.take_scans().empty());
    CHECK(collector.next_wake() == Approx(last + 0.1));
    collector.pass(last + 0.1);
    CHECK(collector.take_scans() == std::vector<std::string>{"HM-4471"});
}

TEST_CASE("five fast characters are typing, six are a scan", "[touch][scan]") {
    ScanCollector collector;
    feed(collector, "12345", 1, 0.001);
    collector.pass(2);
    CHECK(typed(collector) == "12345");
    feed(collector, "123456", 3, 0.001);
    collector.pass(4);
    CHECK(typed(collector).empty());
    CHECK(collector.take_scans().size() == 1);
}

TEST_CASE("gaps of 50 ms are a hand, and what it typed comes out in order with its Enter", "[touch][scan]") {
    ScanCollector collector;
    const Seconds last = feed(collector, "Jon Quill", 1, 0.05);
    collector.add({Key::backspace, 0, last});
    collector.add({Key::enter, 0, last + 0.2});
    collector.pass(last + 1);
    CHECK(typed(collector) == "Jon Quill##");
    CHECK(collector.take_scans().empty());
}

TEST_CASE("the second end key of one scan is not typed", "[touch][scan]") {
    ScanCollector collector;
    const Seconds last = feed(collector, "0102001234026413", 1, 0.001);
    collector.add({Key::tab, 0, last});
    collector.add({Key::enter, 0, last + 0.001});
    CHECK(typed(collector).empty());
    collector.add({Key::enter, 0, last + 0.5});
    CHECK(typed(collector) == "#");
}

TEST_CASE("the configured separator key stands for the group separator", "[touch][scan]") {
    ScanCollector collector{{.separator = Key::f8}};
    feed(collector, "01020012", 1, 0.001);
    collector.add({Key::f8, 0, 1.009});
    collector.add({Key::none, U'2', 1.010});
    collector.pass(2);
    CHECK(collector.take_scans() == std::vector<std::string>{"01020012\x1d"
                                                             "2"});
}

TEST_CASE("letters beyond ASCII keep their bytes", "[touch][scan]") {
    std::string text;
    for (const char32_t c : {U'Ż', U'ó', U'ł', U'€', U'\U0001F600'}) {
        append_utf8(text, c);
    }
    CHECK(text == "Żół€\xF0\x9F\x98\x80");
}
