// The text record where the command line cannot reach: entries made at the kiosk, layout, and what is not
// known.
#include "core/record/text.h"
#include "core/record/text_layout.h"
#include "tests/catch.h"
#include "tests/core/bed_looks.h"

namespace brimline::test {
namespace {

std::string text_of(const Bed& bed, std::string_view number = "") {
    return record_text(bed.state(), bed.desk, bed.policy(), bed.zone(), number);
}
bool holds(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

/// Ten syringes from 09:40:00 on, the last at 09:49:00, then a read-back by the sedation provider that much
/// later.
std::string text_with_read_back(const std::string& time) {
    auto bed = bed_ready_to_fill();
    tap(bed, 10, 40);
    bed.at(time, R"("by":"noor","said_by":"ilse","do":"read-back","ml":500)");
    return text_of(bed);
}

}  // namespace

TEST_CASE("a record of practice says so above everything else (10-decisions F9)", "[record]") {
    auto bed = bed_with_case();
    CHECK_FALSE(holds(text_of(bed), "PRACTICE"));
    bed.at("08:00", R"("by":"wren","do":"patient","number":"P-0001","reason":"practice")");
    CHECK(text_of(bed).find("PRACTICE: nobody was treated") < text_of(bed).find("Record  "));
}

TEST_CASE("a record of a case just booked says what is not known and shows no zero", "[record]") {
    const auto text = text_of(bed_with_case());
    CHECK(holds(text, "Record              not sealed yet"));
    CHECK(holds(text, "!! Allergies           NOT ASKED"));
    CHECK(holds(text, "Weight              not known"));
    CHECK(holds(text, "Outcome             not finished"));
    CHECK(holds(text, "Gate: position      not reached"));
    CHECK_FALSE(holds(text, " 0 mL in"));
    CHECK_FALSE(holds(text, "Final volume"));
    CHECK_FALSE(holds(text, "Lowest SpO2"));
    CHECK_FALSE(holds(text, "BMI"));
    CHECK_FALSE(holds(text, "STOP-Bang"));
}

TEST_CASE("page one names who entered something on the same kiosk up to 10 s before the read-back",
          "[record]") {
    const std::string changed = "the person at the kiosk changed from Tomas Reyle";
    CHECK(holds(text_with_read_back("09:49:06"), changed + " 6 s before"));
    CHECK(holds(text_with_read_back("09:49:10"), changed + " 10 s before"));
    const auto later = text_with_read_back("09:49:11");
    CHECK_FALSE(holds(later, changed));
    CHECK(holds(later, "nobody else entered anything in the 10 s before"));
}

TEST_CASE("a withdrawn entry stays in the timeline, marked, and in no total", "[record]") {
    auto bed = bed_ready_to_fill();
    bed.at("09:38:23", R"("by":"noor","do":"dose","drug":"propofol","amount":30,"unit":"mg")");
    const auto dose = std::to_string(bed.last_seq());
    bed.at("09:39:00", R"("by":"noor","do":"correct","entry":)" + dose +
                           R"(,"withdrawn":true,"reason":"drawn up, not given")");
    const auto text = text_of(bed);
    CHECK(holds(text, "Propofol 30 mg; WITHDRAWN by a"));
    CHECK(holds(text, "withdrawn: it never happened"));
    CHECK_FALSE(holds(text, "propofol 30 mg"));
}

TEST_CASE("while a tap waits for an answer page one shows the span of the volume", "[record]") {
    auto bed = bed_ready_to_fill();
    bed.at("09:38:23", R"("by":"tomas","do":"syringe-in")");
    bed.at("09:38:26", R"("by":"tomas","do":"syringe-in")");
    const auto text = text_of(bed);
    CHECK(holds(text, "Final volume        50 mL to 100 mL = 1 x 50 mL"));
    CHECK(holds(text, "!! Open question       1 tap without an answer"));
    CHECK(holds(text, "!! Agreed by           NOT AGREED"));
}

TEST_CASE("nothing is added after a seal that there is not", "[record]") {
    auto bed = bed_with_case();
    CHECK(addenda_text(bed.state(), bed.desk, bed.zone()).empty());
}

TEST_CASE("text that a person typed cannot begin a line or turn its direction", "[record][layout]") {
    CHECK(record::clean("a\r\nb\tc") == "a  b c");
    CHECK(record::clean("x\x1b[2Jy") == "x\xEF\xBF\xBD[2Jy");
    CHECK(record::clean("x\xE2\x80\xAEy") == "x\xEF\xBF\xBDy");  // U+202E turns what follows around
    CHECK(record::clean("Lucía Żółtek") == "Lucía Żółtek");
}

TEST_CASE("columns are counted by character, and combining marks take none", "[record][layout]") {
    CHECK(record::columns_of("Żółtek") == 6);
    CHECK(record::columns_of("e\xCC\x81") == 1);  // e and a combining acute
    CHECK(record::wrapped("one two three", 7) == std::vector<std::string>{"one two", "three"});
    CHECK(record::wrapped("abcdefgh ij", 3) == std::vector<std::string>{"abc", "def", "gh", "ij"});
    CHECK(record::wrapped("", 10) == std::vector<std::string>{""});
}

TEST_CASE("a table keeps its columns apart when a cell breaks", "[record][layout]") {
    record::Sheet sheet;
    sheet.table({"A", "B"}, {{"one two", "x"}}, {3, 10});
    CHECK(sheet.text() == "   A    B\n   one  x\n   two\n");
}

}  // namespace brimline::test
