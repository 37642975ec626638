// Putting the patient's sheet together.
#include "core/record/leaflet.h"

#include <fmt/format.h>

#include "core/case/discharge_view.h"
#include "core/desk/register.h"
#include "core/record/text_layout.h"
#include "core/record/text_words.h"
#include "core/rules/discharge.h"

namespace brimline {
namespace {

struct Making {
    const CaseState& s;
    const Policy& policy;
    const Zone& zone;
    const SheetWords& words;
    CaseDates dates;
    HomeSheet home;
    LeafletSheet sheet;

    [[nodiscard]] bool placed() const { return dates.placed.has_value(); }
};

std::string name_of_patient(const CaseState& s) {
    const auto& p = s.patient;
    return record::clean(p.given_name.value_or("") + (p.given_name ? " " : "") + p.family_name.value_or("–"));
}

void head(Making& m) {
    const auto& p = m.s.patient;
    m.sheet.title = m.words.say(m.placed() ? "title" : "title-none");
    m.sheet.name = m.words.say("for", {{"name", name_of_patient(m.s)}});
    if (m.placed()) {
        m.sheet.about =
            m.words.say("balloon", {{"ml", record::ml_words(m.home.volume.value_or(Millilitres{}))},
                                    {"date", m.words.day(*m.dates.placed, true)}});
    } else if (m.s.kind == CaseKind::placement) {
        m.sheet.about = m.words.say("deferred");
    } else if (m.s.out && m.s.out->is.complete) {
        m.sheet.about = m.words.say("removed");
    }
    if (p.born) {
        m.sheet.name += ", " + m.words.say("born", {{"date", m.words.date(*p.born)}});
    }
    m.sheet.name += p.number ? ", " + record::clean(*p.number) : "";
    const auto* approved = m.policy.sheet(m.words.language());
    const auto language = m.words.say("language");
    m.sheet.version = approved == nullptr ? m.words.say("version-none", {{"language", language}})
                                          : m.words.say("version", {{"language", language},
                                                                    {"version", approved->version},
                                                                    {"date", date_text(approved->date)},
                                                                    {"approver", approved->approver}});
    m.sheet.practice = is_practice(m.s) ? m.words.say("practice") : "";
}

/// Where nothing was drunk at home yet: the policy's hours after placement, at a full hour.
void sips(Making& m) {
    const auto off = placed_at(m.s);
    if (!off) {
        return;
    }
    const auto from = rules::next_full_hour(*off + std::chrono::hours{m.policy.diet.first_sip_h}, m.zone);
    m.sheet.food.push_back({m.words.say("food.sips"),
                            m.words.say("food.sips-from", {{"date", m.words.day(m.zone.date_of(from), false)},
                                                           {"time", clock_text(from, m.zone)}}),
                            ""});
}

void food(Making& m) {
    if (!m.dates.clear_through) {
        return;
    }
    const auto& d = m.dates;
    const auto next = [](LocalDate day) { return add_days(day, 1); };
    m.sheet.food_head = m.words.say("food.head");
    sips(m);
    m.sheet.food.push_back({m.words.say("food.clear"), m.words.span(*d.placed, *d.clear_through),
                            m.words.say("food.clear-note")});
    m.sheet.food.push_back({m.words.say("food.full"), m.words.span(next(*d.clear_through), *d.full_through),
                            m.words.say("food.full-note")});
    m.sheet.food.push_back({m.words.say("food.soft"), m.words.span(next(*d.full_through), *d.soft_through),
                            m.words.say("food.soft-note")});
    m.sheet.food.push_back(
        {m.words.say("food.usual"),
         m.words.say("food.usual-from", {{"date", m.words.day(next(*d.soft_through), false)}}),
         m.words.say("food.usual-note")});
    m.sheet.food_foot = m.words.say("food.back");
    m.sheet.medicine_head = m.words.say("medicine.head");
    m.sheet.medicines = {
        m.words.say("medicine.acid"),
        m.words.say("medicine.sickness",
                    {{"date", m.words.day(add_days(*d.placed, m.policy.diet.antiemetic_days - 1), false)}})};
}

void rest(Making& m) {
    if (!m.home.no_driving) {
        return;
    }
    m.sheet.rest_head =
        m.words.say("rest.head", {{"date", m.words.day(m.zone.date_of(*m.home.no_driving), false)},
                                  {"time", clock_text(*m.home.no_driving, m.zone)}});
    m.sheet.rest = m.words.say("rest.list");
}

void dates(Making& m) {
    if (!m.dates.due) {
        return;
    }
    m.sheet.dates_head = m.words.say("dates.head");
    m.sheet.dates.push_back(
        {m.words.say("dates.calls"),
         m.words.say("dates.calls-days", {{"first", m.words.day(*m.dates.call_first, false)},
                                          {"second", m.words.day(*m.dates.call_second, false)}}),
         ""});
    m.sheet.dates.push_back({m.words.say("dates.book-by"), m.words.day(*m.dates.book_by, true), ""});
    m.sheet.out_by = {m.words.say("dates.out-by"), m.words.day(*m.dates.due, true), ""};
}

void signs(Making& m) {
    auto& now = m.sheet.emergency;
    auto& call = m.sheet.same_day;
    now.head = m.words.say("emergency.head");
    call.head = m.words.say("same-day.head");
    now.signs.push_back(m.words.say("emergency.pain"));
    if (m.placed()) {
        now.signs.push_back(m.words.say("emergency.belly"));
    }
    now.signs.push_back(m.words.say("emergency.breath"));
    now.signs.push_back(m.words.say("emergency.fever"));
    now.signs.push_back(m.words.say("emergency.blood"));
    call.signs.push_back(m.words.say("same-day.fluid", {{"h", std::to_string(m.policy.advice.no_fluid_h)}}));
    if (!m.placed()) {
        return;
    }
    now.signs.push_back(m.words.say("emergency.wind"));
    const int day = m.policy.advice.vomiting_day;
    call.signs.push_back(m.words.say(
        "same-day.vomiting",
        {{"day", std::to_string(day)}, {"date", m.words.day(add_days(*m.dates.placed, day - 1), false)}}));
    if (m.home.dye) {
        call.signs.push_back(m.words.say("same-day.urine"));
    }
    call.signs.push_back(m.words.say("same-day.hunger"));
}

}  // namespace

bool is_practice(const CaseState& state) {
    return state.patient.number && state.patient.number->starts_with("P-");
}

LeafletSheet leaflet_sheet(const CaseState& state, const Desk& desk, const Policy& policy, const Zone& zone,
                           const SheetWords& words, Instant now) {
    Making m{state,
             policy,
             zone,
             words,
             dates_given(state, desk, policy, zone),
             home_sheet(state, policy, zone, now),
             {}};
    m.sheet.language = words.language();
    m.sheet.clinic = record::clean(policy.clinic.name + (policy.clinic.address.empty() ? "" : ", ") +
                                   policy.clinic.address);
    head(m);
    food(m);
    rest(m);
    dates(m);
    signs(m);
    m.sheet.phone_head = words.say("phone");
    m.sheet.phone = policy.clinic.phone.empty() ? words.say("no-phone") : record::clean(policy.clinic.phone);
    m.sheet.tell = m.placed() ? words.say("tell") : "";
    m.sheet.caution = words.say("caution");
    return m.sheet;
}

}  // namespace brimline
