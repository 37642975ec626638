// Element strings: every worked example of interchange.md 2.4, every refusal code, and properties over random
// labels.
#include <algorithm>
#include <chrono>
#include <random>

#include "core/label/gs1.h"
#include "tests/catch.h"
#include "tests/core/zones.h"

namespace brimline {
namespace {

using test::day;

const LocalDate today = day("2026-03-10");  // interchange.md 2.4

Label read(const std::string& text) {
    const auto label = parse_label(text, today);
    INFO(text << ": " << (label ? "" : label.error().code));
    REQUIRE(label.has_value());
    return *label;
}
LabelFault fault(const std::string& text) {
    const auto label = parse_label(text, today);
    INFO(text);
    REQUIRE_FALSE(label.has_value());
    CHECK_FALSE(label.error().sentence.empty());
    return label.error();
}

TEST_CASE("the worked labels read as published", "[label]") {
    const auto full = read(
        "01020000000471191728033110DW-2641\x1d"
        "21SN00017");
    CHECK(full.elements ==
          std::vector<LabelElement>{
              {"01", "02000000047119"}, {"17", "280331"}, {"10", "DW-2641"}, {"21", "SN00017"}});
    CHECK(full.gtin14 == "02000000047119");
    CHECK(full.expiry == day("2028-03-31"));
    CHECK(full.lot == "DW-2641");
    CHECK(full.serial == "SN00017");
    CHECK_FALSE(full.produced.has_value());
    CHECK_FALSE(full.separators_doubtful);

    const auto lot_first = read(
        "]C110DW-2641\x1d"
        "172803310102000000047119");
    CHECK(lot_first.elements.front() == LabelElement{"10", "DW-2641"});
    CHECK(lot_first.gtin14 == full.gtin14);
    CHECK(lot_first.lot == full.lot);
    CHECK(lot_first.expiry == full.expiry);

    const auto typed = read("(01)02000000047119(17)280331(10)DW-2641");
    CHECK(typed.gtin14 == full.gtin14);
    CHECK(typed.expiry == full.expiry);
    CHECK(typed.lot == full.lot);

    const auto second = read("172803311126030110DW-2642");
    CHECK_FALSE(second.gtin14.has_value());
    CHECK(second.produced == day("2026-03-01"));
    CHECK(second.lot == "DW-2642");

    CHECK(read("010200000004711917280300").expiry == day("2028-03-31"));  // day 00

    const auto lost = read("010200000004711910DW-264121SN00017");
    CHECK(lost.lot == "DW-264121SN00017");
    CHECK(lost.separators_doubtful);

    const auto more = read(
        "0102000000047119240DDW/BAL-7\x1d"
        "3001");
    CHECK(more.value_of("240") == "DDW/BAL-7");
    CHECK(more.value_of("30") == "01");
}

TEST_CASE("the worked refusals have their code and place", "[label]") {
    struct Row {
        std::string text, code;
        std::size_t where;
    };
    const std::vector<Row> table{// interchange.md 2.4
                                 {"]d2010200000004711910HM 2641", "bad_charset", 23},
                                 {"0102000000047110", "bad_check_digit", 15},
                                 {"010200000004711917280230", "bad_date", 18},
                                 {"010200000004711910DW-2641\x1d"
                                  "10DW-2642",
                                  "duplicate_ai", 26},
                                 {"010200000004711908X", "unknown_ai", 16},
                                 {"010200000004711910DW-2641-DW-2641-DW-26", "too_long", 38},
                                 // interchange.md 2.3, one by one
                                 {"", "empty", 0},
                                 {"]C1", "empty", 3},
                                 {"\x1d\x1d", "empty", 1},
                                 {"]d2\x1d", "empty", 4},
                                 {"\r\n", "empty", 0},
                                 {"]C0010200000004711917280331", "bad_prefix", 0},
                                 {"]D20102000000047119", "bad_prefix", 0},
                                 {"]c10102000000047119", "bad_prefix", 0},
                                 {"]", "bad_prefix", 0},
                                 {"hello", "unknown_ai", 0},
                                 {"0", "unknown_ai", 0},
                                 {"00123456789012345675", "unknown_ai", 0},
                                 {"0102000000047", "truncated", 13},
                                 {"17280\x1d"
                                  "10A",
                                  "truncated", 5},
                                 {"(01)0220000987655", "truncated", 17},
                                 {"(17)2803", "truncated", 8},
                                 {"10", "empty_value", 2},
                                 {"10\x1d"
                                  "21A",
                                  "empty_value", 2},
                                 {"(10)(21)A", "empty_value", 4},
                                 {"(01)020000000471190", "too_long", 18},
                                 {"30123456789", "too_long", 10},
                                 {"1728a331", "bad_charset", 4},
                                 {"10DW#1", "bad_charset", 4},
                                 {"10DW\xc3\xa9", "bad_charset", 4},
                                 {"30x", "bad_charset", 2},
                                 {"(10)A B", "bad_charset", 5},
                                 {"17281301", "bad_date", 2},
                                 {"1727022910A", "bad_date", 2},
                                 {"(17)280331(17)280401", "duplicate_ai", 11},
                                 {"(01", "bad_brackets", 0},
                                 {"()1", "bad_brackets", 0},
                                 {"(10)A)B", "bad_brackets", 5},
                                 {"((10)A", "bad_brackets", 0},
                                 {"(10)A(", "bad_brackets", 5},
                                 {"(08)X", "unknown_ai", 1},
                                 {"(1a)X", "unknown_ai", 1},
                                 {"]E0220000098765", "bad_length", 15},
                                 {"]E402200009876555", "bad_length", 11},
                                 {"]E00220000987650", "bad_check_digit", 15}};
    for (const auto& row : table) {
        INFO(row.text);
        const auto wrong = fault(row.text);
        CHECK(wrong.code == row.code);
        CHECK(wrong.where == row.where);
    }
}

TEST_CASE("a field is judged by length, then characters, then check digit or date; duplicates last",
          "[label]") {
    CHECK(fault("10AAAAAAAAAAAAAAAAAAA#AA").code == "too_long");
    CHECK(fault("0102000000047x10").code == "bad_charset");
    CHECK(fault("17280331172804011799").code == "truncated");
    CHECK(fault("172803311728040108X").code == "unknown_ai");
}

TEST_CASE("what the house forgives is forgiven", "[label]") {
    const std::string plain = "01020000000471191728033110DW-2641";
    const Label label = read(plain);
    CHECK(read(plain + "\r\n") == label);
    CHECK(read(plain + "\t") == label);
    CHECK(read("\x1d" + plain) == label);
    CHECK(read("]d2\x1d" + plain) == label);
    CHECK(read("]Q3" + plain) == label);
    CHECK(read("]J1" + plain) == label);
    CHECK(read(plain + "\x1d").lot == "DW-2641");
    CHECK(read("0102000000047119\x1d"
               "17280331\x1d"
               "10DW-2641")
              .elements == label.elements);
    CHECK(read("(01) 02000000047119 (17) 280331 ( 10 ) DW-2641 ").elements == label.elements);
    CHECK(read("1728033117280331").elements.size() == 1);
    CHECK(read("10(A)B\x1d"
               "21C")
              .lot == "(A)B");  // brackets are legal characters of a scan
    CHECK(read("3103000123").value_of("3103") == "000123");
    CHECK(fault("3109000123").code == "unknown_ai");
    CHECK(read("71212345\x1d"
               "90X")
              .value_of("712") == "12345");
}

TEST_CASE("GTINs of every length take their 14-digit form", "[label][gtin]") {
    // interchange.md 2.4
    const std::vector<std::pair<std::string, std::string>> table{{"20010003", "00000020010003"},
                                                                 {"200000444440", "00200000444440"},
                                                                 {"0220000987655", "00220000987655"},
                                                                 {"19529876543216", "19529876543216"}};
    for (const auto& [text, gtin14] : table) {
        INFO(text);
        CHECK(parse_gtin(text) == gtin14);
        CHECK(read(text).gtin14 == gtin14);
    }
    CHECK(read("]E00220000987655").gtin14 == "00220000987655");
    CHECK(read("]E420010003").gtin14 == "00000020010003");
    CHECK(read("]I119529876543216").gtin14 == "19529876543216");
    CHECK(parse_gtin("").error().code == "empty");
    CHECK(parse_gtin("123456789").error().code == "bad_length");
    CHECK(parse_gtin("2001000x").error().code == "bad_charset");
    CHECK(parse_gtin("2001000x").error().where == 7);
    CHECK(parse_gtin("20010004").error().code == "bad_check_digit");
    CHECK(gtin_check_digit("629104150021") == '3');  // before.md 12
    CHECK(gtin_check_digit("978030640615") == '7');
}

TEST_CASE("two-digit years fall in the century that the rule gives", "[label][date]") {
    CHECK(label_date("270600", day("2026-11-25")) == day("2027-06-30"));  // before.md 12
    CHECK(label_date("261125", day("2026-11-25")) == day("2026-11-25"));
    CHECK_FALSE(label_expired(day("2026-11-25"), day("2026-11-25")));
    CHECK(label_expired(day("2026-11-25"), day("2026-11-26")));
    CHECK(label_date("760101", today) == day("2076-01-01"));              // 50 ahead: this century
    CHECK(label_date("770101", today) == day("1977-01-01"));              // 51 ahead: the last
    CHECK(label_date("490101", day("2098-01-01")) == day("2049-01-01"));  // 49 behind: this one
    CHECK(label_date("480101", day("2098-01-01")) == day("2148-01-01"));  // 50 behind: the next
    CHECK(label_date("000229", day("2098-01-01")) == std::nullopt);       // 2100 is no leap year
    CHECK(label_date("000200", day("2098-01-01")) == day("2100-02-28"));
    CHECK(label_date("280229", today) == day("2028-02-29"));
    CHECK_FALSE(label_date("28022", today).has_value());
}

TEST_CASE("a second scan may add and not contradict", "[label]") {
    const Label first = read("01020000000471191728033110DW-2641");
    const auto both = add_scan(first, read("172803311126030121SN1"));
    REQUIRE(both.has_value());
    CHECK(both->produced == day("2026-03-01"));
    CHECK(both->serial == "SN1");
    CHECK(both->elements.size() == 5);
    CHECK(add_scan(first, read("172804011126030121SN1")).error().code == "duplicate_ai");
}

std::string random_text(std::mt19937& chance, std::size_t most) {
    static const std::string set = "ABCXYZabcxyz0123456789!\"%&'()*+,-./_:;<=>?";
    std::string text;
    const auto size = std::uniform_int_distribution<std::size_t>{1, most}(chance);
    for (std::size_t i = 0; i < size; ++i) {
        text += set[std::uniform_int_distribution<std::size_t>{0, set.size() - 1}(chance)];
    }
    return text;
}
std::string random_digits(std::mt19937& chance, std::size_t size) {
    std::string text;
    for (std::size_t i = 0; i < size; ++i) {
        text += static_cast<char>('0' + std::uniform_int_distribution<int>{0, 9}(chance));
    }
    return text;
}

constexpr unsigned seed = 20'261'125;  // printed on failure; put another here to run another

TEST_CASE("a label built from random fields in any order reads back", "[label][property]") {
    std::mt19937 chance{seed};
    INFO("seed " << seed);
    for (int round = 0; round < 2000; ++round) {
        const auto body = random_digits(chance, 13);
        std::vector<LabelElement> fields{
            {"01", body + gtin_check_digit(body)},
            {"17", "28" + std::string{"0331"}},
            {"10", random_text(chance, 20)},
            {"21", random_text(chance, 20)},
            {"240", random_text(chance, 30)},
            {"30", random_digits(chance, 1 + static_cast<std::size_t>(round % 8))},
            {"91", random_text(chance, 90)}};
        std::shuffle(fields.begin(), fields.end(), chance);
        std::string text;
        for (const auto& field : fields) {
            text += field.ai + field.value + (field.ai == "01" || field.ai == "17" ? "" : "\x1d");
        }
        INFO(text);
        const auto label = parse_label(text, today);
        REQUIRE(label.has_value());
        REQUIRE(label->elements == fields);
    }
}

TEST_CASE("any one digit of a GTIN changed is refused", "[label][property]") {
    std::mt19937 chance{seed};
    for (int round = 0; round < 200; ++round) {
        const auto body = random_digits(chance, 13);
        const std::string good = body + gtin_check_digit(body);
        for (std::size_t i = 0; i < good.size(); ++i) {
            std::string bad = good;
            bad[i] = static_cast<char>('0' + (bad[i] - '0' + 1 + round % 9) % 10);
            INFO("seed " << seed << ": " << good << " as " << bad);
            REQUIRE(parse_label("01" + bad, today).error().code == "bad_check_digit");
        }
    }
}

TEST_CASE("random bytes and cut labels come back as a label or a fault within the text",
          "[label][property]") {
    std::mt19937 chance{seed};
    const std::string good =
        "]d201020000000471191728033110DW-2641\x1d"
        "21SN00017\x1d"
        "91(10)x";
    for (int round = 0; round < 20'000; ++round) {
        std::string text = round % 2 == 0 ? good : "";
        const int changes = round % 2 == 0 ? 1 + round % 5 : round % 40;
        for (int i = 0; i < changes; ++i) {
            const auto at = std::uniform_int_distribution<std::size_t>{0, text.size()}(chance);
            const char c = static_cast<char>(std::uniform_int_distribution<int>{0, 255}(chance));
            text.insert(text.begin() + static_cast<std::ptrdiff_t>(at), c);
        }
        text = text.substr(0, std::uniform_int_distribution<std::size_t>{0, text.size()}(chance));
        const auto label = parse_label(text, today);
        if (!label) {
            INFO("seed " << seed << ", round " << round << ", code " << label.error().code);
            REQUIRE(label.error().where <= text.size());
        }
    }
}

TEST_CASE("512 bytes are read and 513 are not", "[label]") {
    std::string text;
    while (text.size() + 94 <= longest_label) {
        text +=
            "9" + std::string(1, static_cast<char>('1' + text.size() / 94)) + std::string(90, 'A') + "\x1d";
    }
    text += "10";
    text += std::string(longest_label - text.size(), '\t');
    REQUIRE(text.size() == longest_label);
    CHECK(fault(text).code == "empty_value");
    CHECK(fault(text + "\t").code == "too_long");
    CHECK(fault(text + "\t").where == longest_label);
}

TEST_CASE("the longest bad inputs are read thousands of times within seconds", "[label]") {
    // Steps, not clocks: every byte is looked at a bounded number of times, so the worst inputs at the limit
    // are read thousands of times within a generous second.
    const std::vector<std::string> worst{std::string(longest_label, '('), std::string(longest_label, '\x1d'),
                                         "10" + std::string(longest_label - 2, 'A'),
                                         "(10)" + std::string(longest_label - 4, ' ')};
    const auto begin = std::chrono::steady_clock::now();
    for (int i = 0; i < 2000; ++i) {
        for (const auto& text : worst) {
            REQUIRE_FALSE(parse_label(text, today).has_value());
        }
    }
    CHECK(std::chrono::steady_clock::now() - begin < std::chrono::seconds{10});
}

}  // namespace
}  // namespace brimline
