// Signing several cases, the seal, the sealed record with its addendum, the lists of the desk, giving a case
// up.
#include "core/desk/signing.h"
#include "tests/app/kiosk_bed.h"
#include "tests/catch.h"

using namespace brimline;
using namespace brimline::test;
using screens::Page;
using screens::Sheet;

namespace {

using Faults = std::vector<std::string>;

std::unique_ptr<KioskBed> at(const std::string& clock, const std::string& person, Page page,
                             bool long_words = false, std::vector<std::string> scripts = {"case-a"},
                             const std::string& name = "A") {
    auto bed = std::make_unique<KioskBed>(KioskBed::Start{.until = "2026-11-25T" + clock + "+00:00",
                                                          .scripts = std::move(scripts),
                                                          .stretched = long_words,
                                                          .as_script = true});
    bed->kiosk->open(person, name, page);
    bed->settle();
    (void)bed->new_kinds(name);
    return bed;
}

/// Reads every page of what was said, to the PIN.
void read_all(KioskBed& bed) {
    for (int i = 0; i < 30 && bed.glass->has("next-page"); ++i) {
        bed.tap("next-page");
    }
}

}  // namespace

TEST_CASE("the PIN opens only when the last page was on the glass", "[sign]") {
    const auto bed = at("11:57:00", "ilse", Page::sign_cases);
    bed->picture("sign-cases");
    CHECK_FALSE(bed->glass->has("pad/1"));
    CHECK(bed->glass->has("next-page"));
    read_all(*bed);
    bed->picture("sign-cases-pin");
    CHECK(bed->glass->has("pad/1"));
    CHECK_FALSE(bed->glass->has("sign-and-seal"));
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("the physician signs and seals in one PIN, for this case only", "[sign]") {
    const auto bed = at("11:57:00", "ilse", Page::sign_cases);
    read_all(*bed);
    bed->keys("pad", "381946");
    bed->tap("sign-and-seal");
    INFO(bed->glass->all_text());
    REQUIRE(bed->state().sealed.has_value());
    CHECK(bed->state().signatures.at(Part::physician).by == "ilse");
    CHECK(bed->kiosk->page() == Page::record);
    bed->picture("sealed-record");
    CHECK(bed->glass->shows("Record " + bed->state().sealed->is.number));
    CHECK(bed->glass->text_of("proof/1").size() == 19);
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("a wrong PIN signs nothing and says how many tries are left", "[sign]") {
    const auto bed = at("11:57:00", "ilse", Page::sign_cases);
    read_all(*bed);
    bed->keys("pad", "000000");
    bed->tap("sign-and-seal");
    CHECK_FALSE(bed->state().sealed.has_value());
    CHECK(bed->new_kinds() == std::vector<std::string>{"attempt"});
    CHECK(bed->kiosk->page() == Page::sign_cases);
    CHECK(bed->glass->text_of("prompt/title").find("PIN not right") != std::string::npos);
}

TEST_CASE("a nurse signs the nursing part and seals nothing", "[sign]") {
    const auto bed = at("11:45:00", "wren", Page::sign_cases);
    read_all(*bed);
    bed->keys("pad", "540872");
    bed->tap("sign");
    CHECK(bed->state().signatures.at(Part::nursing).by == "wren");
    CHECK(cases_to_sign(bed->room->desk(), "wren").empty());
    CHECK_FALSE(bed->state().sealed.has_value());
    CHECK(bed->glass->shows("No case waits for you"));
}

TEST_CASE("while another part is open the physician's signature does not seal", "[sign]") {
    const auto bed = at("11:45:00", "ilse", Page::sign_cases);
    CHECK(bed->glass->shows("open: sedation, nursing"));
    read_all(*bed);
    bed->keys("pad", "381946");
    CHECK_FALSE(bed->glass->has("sign-and-seal"));
    CHECK(bed->glass->has("sign"));
}

TEST_CASE("not what I said withdraws the entry, and both stay in the record", "[sign]") {
    const auto bed = at("11:57:00", "ilse", Page::sign_cases);
    const auto& targets = bed->glass->registry().targets();
    const auto row = std::find_if(targets.begin(), targets.end(),
                                  [](const touch::Target& t) { return t.name.rfind("said/", 0) == 0; });
    REQUIRE(row != targets.end());
    const auto name = row->name;
    bed->tap(name);
    CHECK(bed->glass->has("not-what-i-said"));
    bed->tap("not-what-i-said");
    CHECK(bed->new_kinds().front() == "corrected");
    CHECK_FALSE(bed->glass->has(name));
}

TEST_CASE("before the seal the record says who has signed and what is open", "[record]") {
    const auto bed = at("11:50:00", "wren", Page::record);
    bed->picture("record-open");
    CHECK(bed->glass->shows("Not sealed yet"));
    CHECK(bed->glass->text_of("parts/nursing/by") == "Wren Castell");
    CHECK(bed->glass->text_of("parts/physician/by") == "open");
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("the record is read page by page and an addendum is added beside it", "[record]") {
    const auto bed = at("12:00:00", "wren", Page::record);
    bed->tap("open-record");
    bed->picture("record-text");
    CHECK(bed->glass->text_of("line/0/1") != "");
    bed->tap("next-page");
    bed->tap_all({"page-back", "back", "add-addendum"});
    CHECK(bed->kiosk->sheet() == Sheet::addendum);
    bed->glass->type("Called on 26 Nov");
    bed->tap("letters-done");
    REQUIRE(bed->state().addenda.size() == 1);
    CHECK(bed->state().addenda.front().text == "Called on 26 Nov");
    bed->picture("record-addendum");
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("sealed records stand in a list, and a tap opens one", "[records]") {
    const auto bed = at("12:00:00", "pia", Page::records);
    bed->picture("records");
    bed->tap("record/A");
    CHECK(bed->kiosk->page() == Page::record);
    CHECK(bed->glass->faults() == Faults{});
    const auto none = at("09:00:00", "pia", Page::records);
    CHECK(none->glass->shows("No record is sealed yet"));
}

TEST_CASE("open items stand by date with owner, those of one person alone, and the closed ones", "[items]") {
    const auto bed = at("11:50:00", "pia", Page::open_items, false, {"case-a", "case-c"});
    bed->picture("open-items");
    const auto all = listed_items(bed->room->desk(), "", false);
    CHECK_FALSE(all.empty());
    CHECK(bed->glass->has("item/" + all.front().state->name + "/" + all.front().item->code));
    bed->tap("filter/mine");
    CHECK(bed->glass->is_checked("filter/mine"));
    bed->tap("filter/done");
    bed->tap("filter/by-date");
    bed->tap("item/" + all.front().state->name + "/" + all.front().item->code);
    CHECK(bed->kiosk->page() != Page::open_items);
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("giving up asks what is inside, over Fill with Syringe in in the corner", "[abandon]") {
    const auto bed = at("09:40:00", "tomas", Page::fill);
    bed->tap("rail");
    bed->tap("to-abandon");
    bed->picture("abandon");
    CHECK(bed->glass->has("syringe-in"));
    CHECK_FALSE(bed->glass->has("abandon"));
    bed->tap_all({"device/filled", "catheter/on", "reason/not-tolerated"});
    bed->tap("abandon");
    REQUIRE(bed->state().abandoned.has_value());
    const auto& inside = bed->state().abandoned->is.inside;
    CHECK(inside.device);
    CHECK(inside.catheter);
    CHECK(inside.ml == running_volume(bed->state().device()));
    CHECK(bed->state().abandoned->stamp.said_by == "ilse");
    CHECK(bed->glass->faults() == Faults{});
}

TEST_CASE("before the device is opened giving up needs no volume", "[abandon]") {
    const auto bed = at("09:33:00", "tomas", Page::place);
    bed->tap("rail");
    bed->tap("to-abandon");
    bed->tap_all({"device/none", "catheter/off", "reason/airway"});
    bed->tap("abandon");
    CHECK(bed->state().abandoned->is.inside == Inside{false, Millilitres{}, false});
}

TEST_CASE("the pages of signing and record keep their layout with words 1.4 times as long",
          "[sign][record][items][abandon][layout]") {
    const auto sign = at("11:57:00", "ilse", Page::sign_cases, true);
    sign->picture("sign-long");
    read_all(*sign);
    sign->keys("pad", "381");
    CHECK(sign->glass->faults() == Faults{});
    const auto record = at("12:00:00", "wren", Page::record, true);
    record->tap("open-record");
    record->tap("back");
    record->picture("record-long");
    CHECK(record->glass->faults() == Faults{});
    const auto open = at("11:50:00", "wren", Page::record, true);
    CHECK(open->glass->faults() == Faults{});
    CHECK(at("11:50:00", "pia", Page::open_items, true)->glass->faults() == Faults{});
    CHECK(at("12:00:00", "pia", Page::records, true)->glass->faults() == Faults{});
    const auto abandon = at("09:33:00", "tomas", Page::place, true);
    abandon->tap("rail");
    abandon->tap("to-abandon");
    abandon->picture("abandon-long");
    CHECK(abandon->glass->faults() == Faults{});
}
