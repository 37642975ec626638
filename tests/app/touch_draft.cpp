// What is being typed: numbers that cannot slip by ten, texts of whole letters.
#include "app/kiosk/touch/number_draft.h"
#include "app/kiosk/touch/text_draft.h"
#include "tests/catch.h"

using namespace brimline::touch;

TEST_CASE("a second point is refused and a leading zero is added", "[touch][draft]") {
    NumberDraft draft{4, 1};
    CHECK(draft.press(PadKey::point));
    CHECK(draft.text() == "0.");
    CHECK_FALSE(draft.press(PadKey::point));
    CHECK(draft.press(PadKey::d5));
    CHECK_FALSE(draft.press(PadKey::d5));
    CHECK(draft.in_tenths() == 5);
    CHECK(draft.shown(",") == "0,5");
    CHECK_FALSE(draft.whole().has_value());
}

TEST_CASE("a zero in front is replaced and the length is limited", "[touch][draft]") {
    NumberDraft draft{3, 0};
    draft.press(PadKey::d0);
    draft.press(PadKey::d5);
    draft.press(PadKey::d0);
    draft.press(PadKey::d0);
    CHECK_FALSE(draft.press(PadKey::d0));
    CHECK(draft.whole() == 500);
    CHECK_FALSE(draft.press(PadKey::point));
}

TEST_CASE("nothing typed has no value, not zero", "[touch][draft]") {
    NumberDraft draft{3, 0};
    CHECK_FALSE(draft.whole().has_value());
    draft.press(PadKey::d0);
    CHECK(draft.whole() == 0);
    draft.press(PadKey::erase);
    CHECK_FALSE(draft.whole().has_value());
    CHECK_FALSE(draft.press(PadKey::erase));
}

TEST_CASE("the first key types over a proposed value", "[touch][draft]") {
    NumberDraft draft{3, 1};
    draft.propose("30");
    CHECK(draft.whole() == 30);
    draft.press(PadKey::d2);
    draft.press(PadKey::d5);
    CHECK(draft.whole() == 25);
    draft.propose("30");
    draft.press(PadKey::erase);
    CHECK(draft.empty());
}

TEST_CASE("a text takes back whole letters and stops at its limit", "[touch][draft]") {
    TextDraft draft{4};
    CHECK(draft.add("Żół"));
    CHECK(draft.letters() == 3);
    CHECK_FALSE(draft.add("te"));
    CHECK(draft.text() == "Żółt");
    draft.erase();
    draft.erase();
    CHECK(draft.text() == "Żó");
}
