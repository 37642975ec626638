// The record of a case: who has signed and what is open; once sealed its number, its proof and the way to an
// addendum. Reading it shows its lines as they are sealed.
#include <fmt/format.h>

#include <algorithm>

#include "app/kiosk/screens/case_frame.h"
#include "app/kiosk/screens/case_parts.h"
#include "app/kiosk/screens/desk_words.h"
#include "app/kiosk/screens/fill_words.h"
#include "app/kiosk/screens/letters.h"
#include "app/kiosk/screens/names.h"
#include "app/kiosk/screens/pages.h"
#include "app/kiosk/screens/size_parts.h"
#include "core/case/discharge_view.h"
#include "core/desk/signing.h"
#include "core/record/said.h"

namespace brimline::screens {
namespace {

using touch::Glass;
using touch::Rect;

constexpr std::size_t lines_on_page = 19;

std::string moment_words(const touch::Glass& glass, const Scene& scene, Instant t) {
    return shown_date(glass, scene.zone.date_of(t)) + " " + clock_text(t, scene.zone);
}

/// A line of facts; an empty value is left out.
class Facts {
public:
    Facts(Glass& glass, float y) : glass_{glass}, y_{y} {}
    void add(const char* name, const std::string& value, bool strong = false) {
        if (value.empty()) {
            return;
        }
        const auto slot = fmt::format("record/{}", name);
        touch::text(glass_, slot, {196, y_, 190, 36}, glass_.words().say(fmt::format("record.{}", name)),
                    {.colour = glass_.colours().text_2, .lines = 1});
        touch::text(glass_, slot + "/value", {392, y_, 440, 36}, value,
                    {.em = touch::step::body, .bold = strong, .lines = 1, .may_cut = true});
        y_ += 41;
    }

private:
    Glass& glass_;
    float y_;
};

std::string sedation_words(const Scene& scene) {
    const auto& s = *scene.ahead_state;
    if (!s.sedation_start || !s.sedation_end) {
        return "";
    }
    return clock_text(s.sedation_start->happened, scene.zone) + " – " +
           clock_text(s.sedation_end->happened, scene.zone) + ", " +
           duration_words(s.sedation_end->happened - s.sedation_start->happened);
}

std::string doses_words(const Glass& glass, const Scene& scene) {
    std::string all;
    for (const auto& total : dose_totals(*scene.ahead_state, scene.now)) {
        const auto* drug = scene.policy.drug(total.drug);
        all += (all.empty() ? "" : ", ") + (drug == nullptr ? total.drug : drug->words) + " " +
               decimal_words(glass, total.total) + " " + glass.words().say("unit.dose-" + total.unit);
    }
    return all;
}

std::string lowest_words(const Glass& glass, const Scene& scene) {
    const auto lowest = lowest_spo2(*scene.ahead_state);
    return lowest ? glass.words().say("record.lowest-is", {{"n", std::to_string(lowest->value)},
                                                           {"time", clock_text(lowest->at, scene.zone)}})
                  : std::string{};
}

std::string left_words(const Glass& glass, const Scene& scene) {
    const auto& gone = scene.ahead_state->discharged;
    if (!gone) {
        return "";
    }
    auto words = clock_text(gone->stamp.happened, scene.zone) + ", " +
                 glass.words().say(fmt::format("discharge.to-{}", name_of(gone->is.disposition)));
    return gone->is.with ? words + " · " + *gone->is.with : words;
}

void draw_facts(Glass& glass, const Scene& scene) {
    const auto& s = *scene.ahead_state;
    const auto& words = glass.words();
    Facts facts{glass, 206};
    facts.add("sedation", sedation_words(scene));
    facts.add("doses", doses_words(glass, scene));
    facts.add("lowest", lowest_words(glass, scene));
    const bool placed = placed_at(s).has_value();
    if (placed) {
        const auto view = fill_view(*scene.state, s, scene.policy, scene.now);
        facts.add("filled", ml_words(glass, running_volume(s.device())) + " = " + syringes_words(glass, view),
                  true);
        const auto agreed = agreed_by(s, scene.policy);
        facts.add("agreed", agreed ? page_one_words(glass, *agreed) : words.say("record.not-agreed"), true);
    } else {
        facts.add("filled", words.say("handover.no-balloon"), true);
    }
    const auto standing =
        std::count_if(s.holds.begin(), s.holds.end(), [](const Hold& h) { return h.stands(); });
    facts.add("holds", words.say("record.holds-are", {{"all", std::to_string(s.holds.size())},
                                                      {"open", std::to_string(standing)}}));
    const auto corrections = s.corrections.size() + s.count_corrections.size();
    facts.add("corrections", corrections == 0 ? words.say("sign.none") : std::to_string(corrections));
    facts.add("left", left_words(glass, scene));
    const auto dates = dates_of(s, scene.policy, scene.zone);
    if (dates.due && dates.book_by) {
        facts.add("due",
                  shown_date(glass, *dates.due) + ", " +
                      words.say("record.book-by", {{"date", shown_date(glass, *dates.book_by)}}),
                  true);
    }
}

void draw_head(Glass& glass, const Scene& scene) {
    const auto& words = glass.words();
    const auto& sealed = scene.ahead_state->sealed;
    touch::panel(glass, {176, 104, 672, 560});
    touch::icon(glass, sealed ? touch::Icon::good : touch::Icon::ring, {218, 152}, 44);
    touch::text(
        glass, "record/title", {258, 112, 570, 44},
        sealed ? words.say("record.number", {{"n", sealed->is.number}}) : words.say("record.not-sealed"),
        {.em = touch::step::act, .bold = true, .lines = 1});
    touch::text(glass, "record/sealed", {258, 156, 570, 30},
                sealed
                    ? words.say("record.sealed-by", {{"time", moment_words(glass, scene, sealed->stamp.at)},
                                                     {"name", short_name(scene.ahead, sealed->stamp.by)}})
                    : words.say("record.three-parts"),
                {.colour = glass.colours().text_2, .lines = 1});
    touch::line(glass, {196, 196}, {828, 196}, glass.colours().hairline, 2);
}

/// "7c1e 90d4 2ab8 55f0" of the seal, in groups of four.
std::string groups_of(const std::string& hash, std::size_t from) {
    std::string groups;
    for (std::size_t i = from; i < std::min(hash.size(), from + 16); i += 4) {
        groups += (groups.empty() ? "" : " ") + hash.substr(i, 4);
    }
    return groups;
}

void draw_proof(Glass& glass, const Scene& scene) {
    const auto& words = glass.words();
    const Rect panel{864, 104, 400, 268};
    touch::panel(glass, panel);
    panel_head(glass, "proof/head", panel, words.say("record.proof"));
    const auto& hash = scene.ahead_state->sealed->is.hash;
    for (int row = 0; row < 4; ++row) {
        touch::key_numeral(glass, fmt::format("proof/{}", row + 1),
                           {884, 144 + 40 * static_cast<float>(row), 364, 38},
                           groups_of(hash, static_cast<std::size_t>(row) * 16), {.em = touch::step::act});
    }
    touch::text(glass, "proof/note", {884, 308, 360, 56}, words.say("record.proof-note"),
                {.colour = glass.colours().text_2});
}

/// Before the seal: who has signed which part, and what is still open.
void draw_parts(Glass& glass, const Scene& scene) {
    const auto& s = *scene.ahead_state;
    const auto& words = glass.words();
    const Rect panel{864, 104, 400, 268};
    touch::panel(glass, panel);
    panel_head(glass, "parts/head", panel, words.say("record.parts"));
    float y = 148;
    for (const auto part : {Part::sedation, Part::nursing, Part::physician}) {
        const auto found = s.signatures.find(part);
        const bool done = found != s.signatures.end();
        const auto name = fmt::format("parts/{}", name_of(part));
        touch::icon(glass, done ? touch::Icon::good : touch::Icon::ring, {898, y + 18}, done ? 28 : 24);
        touch::text(glass, name, {922, y, 150, 36}, words.say(fmt::format("sign.part-{}", name_of(part))),
                    {.bold = true, .lines = 1});
        touch::text(
            glass, name + "/by", {1076, y, 168, 36},
            done ? short_name(scene.ahead, found->second.by) : words.say("record.open"),
            {.colour = glass.colours().text_2, .align = touch::Align::right, .lines = 1, .may_cut = true});
        y += 44;
    }
    const auto open =
        std::count_if(s.items.begin(), s.items.end(), [](const OpenItem& i) { return !i.closed; });
    touch::text(glass, "parts/items", {884, 290, 360, 70}, words.count("sign.open-items", open),
                {.bold = open > 0});
}

void draw_ways(Glass& glass, const Scene& scene, RecordDrafts& drafts, Asks& asks) {
    const auto& words = glass.words();
    if (touch::button(glass, "open-record", {864, 384, 400, 88},
                      {.title = words.say("record.read"), .note = words.say("record.as-sealed")})) {
        drafts.first_line = 0;
        asks.sheet = Sheet::read_record;
    }
    if (scene.ahead_state->sealed) {
        if (touch::button(glass, "add-addendum", {864, 484, 400, 88},
                          {.title = words.say("record.addendum")})) {
            drafts.addendum = touch::TextDraft{300};
            asks.sheet = Sheet::addendum;
        }
    } else if (touch::button(
                   glass, "sign-this", {864, 484, 400, 88},
                   {.title = words.say("record.sign"), .note = short_name(scene.ahead, scene.person)})) {
        drafts.begin(scene.ahead_state->name);
        asks.page = Page::sign_cases;
    }
    const auto& addenda = scene.ahead_state->addenda;
    touch::text(glass, "record/addenda", {872, 580, 384, 80},
                addenda.empty() ? std::string{} : addenda.back().text,
                {.colour = glass.colours().text_2, .lines = 3, .may_cut = true});
}

/// One line of the record, its parts at their columns.
void draw_line(Glass& glass, const std::string& line, std::size_t number, float y) {
    constexpr float column = 12.2F;
    std::size_t from = 0;
    int part = 0;
    while (from < line.size()) {
        from = line.find_first_not_of(' ', from);
        if (from == std::string::npos) {
            return;
        }
        auto end = line.find("  ", from);
        end = end == std::string::npos ? line.size() : end;
        const auto before = touch::letters_of(line.substr(0, from)).size();
        const float x = 24 + column * static_cast<float>(before);
        touch::text(glass, fmt::format("line/{}/{}", number, ++part), {x, y, 1256 - x, 28},
                    line.substr(from, end - from), {.lines = 1, .may_cut = true});
        from = end;
    }
}

Asks draw_read(Glass& glass, const Scene& scene, RecordDrafts& drafts) {
    Asks asks;
    const auto& words = glass.words();
    draw_case_strip(glass, scene, asks);
    touch::fill(glass, {0, 90, 1280, 590}, glass.colours().panel);
    const auto lines = record_lines(*scene.state, scene.desk, scene.policy, scene.zone);
    drafts.first_line = drafts.first_line >= lines.size() ? 0 : drafts.first_line;
    for (std::size_t i = 0; i < lines_on_page && drafts.first_line + i < lines.size(); ++i) {
        draw_line(glass, lines[drafts.first_line + i], i, 100 + 30 * static_cast<float>(i));
    }
    const auto pages = (lines.size() + lines_on_page - 1) / lines_on_page;
    const auto here = drafts.first_line / lines_on_page + 1;
    const auto tap = touch::prompt_bar(
        glass, {16, 692, 832, 96},
        {.urgency = touch::Urgency::low,
         .title = words.say("unit.page-of", {{"n", std::to_string(here)}, {"all", std::to_string(pages)}}),
         .why = words.say("record.typed-not-measured"),
         .chips = {{"page-back", words.say("sign.page-back")}, {"back", words.say("touch.back")}}});
    if (tap.chip == std::size_t{0}) {
        drafts.first_line = (here == 1 ? pages - 1 : here - 2) * lines_on_page;
    } else if (tap.chip == std::size_t{1}) {
        asks.sheet = Sheet::none;
    }
    const touch::Action next{
        .command = "next-page", .title = words.say("day-list.next-part"), .look = touch::ActionLook::opens};
    if (touch::action(glass, touch::layout_for(glass.size()).action, next) == touch::ActionTap::action) {
        drafts.first_line = here == pages ? 0 : here * lines_on_page;
    }
    return asks;
}

Asks draw_addendum(Glass& glass, const Scene& scene, RecordDrafts& drafts) {
    Asks asks;
    if (draw_letters(glass, scene, glass.words().say("record.addendum-label"), drafts.addendum, drafts.keys,
                     asks)) {
        if (!drafts.addendum.text().empty()) {
            asks.tell(Addendum{drafts.addendum.text()});
        }
        asks.sheet = Sheet::none;
    }
    return asks;
}

}  // namespace

Asks draw_record(Glass& glass, const Scene& scene, RecordDrafts& drafts) {
    if (scene.sheet == Sheet::read_record) {
        return draw_read(glass, scene, drafts);
    }
    if (scene.sheet == Sheet::addendum) {
        return draw_addendum(glass, scene, drafts);
    }
    Asks asks;
    const auto& words = glass.words();
    draw_case_frame_bare(glass, scene, asks);
    draw_head(glass, scene);
    draw_facts(glass, scene);
    const bool sealed = scene.ahead_state->sealed.has_value();
    if (sealed) {
        draw_proof(glass, scene);
    } else {
        draw_parts(glass, scene);
    }
    draw_ways(glass, scene, drafts, asks);
    draw_case_prompt(glass, scene,
                     touch::Prompt{.urgency = sealed ? touch::Urgency::none : touch::Urgency::low,
                                   .title = words.say(sealed ? "record.unchangeable" : "record.to-seal"),
                                   .why = words.say(sealed ? "record.only-added" : "record.to-seal-why")},
                     asks);
    const touch::Action list{.command = "to-list",
                             .title = words.say("record.to-list"),
                             .look = sealed ? touch::ActionLook::ready : touch::ActionLook::opens};
    if (touch::action(glass, touch::layout_for(glass.size()).action, list) == touch::ActionTap::action) {
        asks.page = Page::day_list;
    }
    return asks;
}

}  // namespace brimline::screens
