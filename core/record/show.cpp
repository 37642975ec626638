// Writing the state of a case as JSON.
#include "core/record/show.h"

#include <fmt/format.h>

#include <set>

#include "core/case/prompts.h"
#include "core/desk/register.h"
#include "core/rules/physics.h"

namespace brimline {
namespace {

Json number(Decimal d) { return Json::parse(d.text()); }
Json number(Millilitres v) { return number(Decimal::of_millionths(v.in_tenths() * (Decimal::scale / 10))); }

struct View {
    const CaseState& s;
    const Desk& desk;
    const Policy& policy;
    const Zone& zone;
    Instant now;
    [[nodiscard]] Json time(Instant t) const { return instant_text(t, zone); }
};

template <class T>
void put(Json& into, const char* key, const std::optional<T>& value) {
    if (value) {
        into[key] = *value;
    }
}

Json patient(const View& v) {
    Json p = Json::object();
    put(p, "number", v.s.patient.number);
    put(p, "family_name", v.s.patient.family_name);
    put(p, "given_name", v.s.patient.given_name);
    if (v.s.patient.born) {
        p["born"] = date_text(*v.s.patient.born);
    }
    if (v.s.patient.sex_at_birth) {
        p["sex_at_birth"] = std::string{name_of(*v.s.patient.sex_at_birth)};
    }
    return p;
}

Json gates(const View& v) {
    Json g = Json::object();
    g["identity"] = std::string{name_of(gate_identity(v.s))};
    if (v.s.kind == CaseKind::placement || v.s.device().label) {
        g["go"] = std::string{name_of(gate_go(v.s))};
        g["position"] = std::string{name_of(gate_position(v.s))};
        g["read_back"] = std::string{name_of(gate_read_back(v.s))};
    }
    return g;
}

Json holds(const View& v) {
    Json list = Json::array();
    for (const auto& hold : v.s.holds) {
        Json h{{"code", hold.code},
               {"class", std::string{name_of(hold.hold_class)}},
               {"since", v.time(hold.since)},
               {"say", hold.say}};
        if (hold.until) {
            h["until"] = v.time(*hold.until);
        }
        if (hold.ended) {
            h["ended"] = v.time(*hold.ended);
            h["ended_how"] = std::string{name_of(*hold.ended_how)};
        }
        if (!hold.overrides.empty()) {
            const auto& o = hold.overrides.back();
            h["override"] = Json{{"by", o.stamp.said_by.value_or(o.stamp.by)}, {"reason", o.is.reason}};
            put(h["override"], "words", o.is.words);
        }
        list.push_back(std::move(h));
    }
    return list;
}

Json provisos(const View& v) {
    Json list = Json::array();
    for (const auto& p : v.s.provisos) {
        Json one{{"id", p.id}, {"hold", p.hold}, {"stage", p.said.stage}, {"condition", p.said.condition}};
        if (p.answer) {
            one["answer"] = std::string{name_of(p.answer->is.value)};
            one["answered"] = v.time(p.answer->stamp.happened);
            put(one, "note", p.answer->is.note);
        }
        list.push_back(std::move(one));
    }
    return list;
}

Json open_items(const View& v) {
    Json list = Json::array();
    for (const auto& item : v.s.items) {
        if (item.closed) {
            continue;
        }
        Json one{{"code", item.code}, {"say", item.say}};
        put(one, "owner", item.owner);
        if (item.due) {
            one["due"] = date_text(*item.due);
        }
        list.push_back(std::move(one));
    }
    return list;
}

std::optional<int> to_aim(const View& v, Millilitres volume) {
    const auto band = band_of(v.s, v.policy);
    if (!band) {
        return std::nullopt;
    }
    const auto nominal = nominal_syringe(v.s, v.policy).in_tenths();
    const auto missing = Millilitres{band->aim - volume}.in_tenths();
    return missing <= 0 ? 0 : static_cast<int>((missing + nominal - 1) / nominal);
}

Json fill(const View& v) {
    const auto& block = v.s.device();
    const auto running = running_volume(block);
    const auto possible = possible_volume(block);
    const Millilitres next = possible + nominal_syringe(v.s, v.policy);
    Json f{{"running_ml", number(running)}, {"syringes", syringes_counted(block)}};
    if (possible != running) {
        f["possible_ml"] = number(possible);
    }
    if (const auto state = band_state(running, v.s, v.policy)) {
        f["state"] = std::string{name_of(*state)};
    }
    f["next_ml"] = number(next);
    if (const auto state = band_state(next, v.s, v.policy)) {
        f["next_state"] = std::string{name_of(*state)};
    }
    put(f, "to_aim", to_aim(v, possible));
    f["questions"] = Json::array();
    for (const auto* question : open_questions(block)) {
        f["questions"].push_back(question->id);
    }
    put(f, "pace_ml_min", pace_ml_min(block));
    if (running > Millilitres{}) {
        const auto diameter = rules::sphere_diameter(running).in_tenths();
        f["diameter_cm"] = number(Decimal::of_millionths(diameter * (Decimal::scale / 10)));
        f["mass_g"] = Json::parse(rules::fill_mass(running, v.policy.fill.saline_g_per_ml).text(0));
    }
    return f;
}

Json counts(const View& v) {
    Json list = Json::array();
    for (const auto& check : v.s.device().checks) {
        const auto& c = check.is;
        Json one{{"own", c.own}};
        if (c.pedal) {
            one["pedal"] = *c.pedal;
            one["second"] = *c.pedal;
        }
        one["said"] = c.said;
        one["agreed"] = c.agreed;
        if (c.parted_at) {
            one["parted_at"] = v.time(*c.parted_at);
        }
        one["at"] = v.time(check.stamp.happened);
        list.push_back(std::move(one));
    }
    return list;
}

std::optional<Json> matter(const View& v) {
    const auto reading = matter_reading(v.s, v.policy);
    if (!reading) {
        return std::nullopt;
    }
    Json m{{"method", std::string{name_of(reading->method)}}};
    if (reading->judged) {
        m["agrees"] = reading->agrees;
    }
    put(m, "used", reading->row_used);
    put(m, "counted", reading->row_counted);
    if (reading->matter_ml) {
        m["saline_ml"] = number(Millilitres::of_tenths(*reading->saline_tenths));
        m["matter_ml"] = number(*reading->matter_ml);
        m["counted_ml"] = number(*reading->counted_ml);
    }
    return m;
}

std::optional<Json> read_back(const View& v) {
    const auto& said = v.s.device().read_backs;
    if (said.empty()) {
        return std::nullopt;
    }
    const auto& last = said.back();
    Json r{{"ml", number(last.is.ml)}, {"agreed", last.is.agreed}, {"by", last.stamp.by}};
    put(r, "said_by", last.stamp.said_by);
    r["at"] = v.time(last.stamp.happened);
    return r;
}

Json devices(const View& v) {
    Json list = Json::array();
    for (const auto& block : v.s.devices) {
        if (!block.label) {
            continue;
        }
        const auto& label = block.label->is;
        Json d = Json::object();
        put(d, "lot", label.lot);
        put(d, "serial", label.serial);
        put(d, "gtin", label.gtin);
        if (label.expiry) {
            d["expiry"] = date_text(*label.expiry);
        }
        d["how"] = std::string{name_of(label.how)};
        const bool deferred = outcome_of(v.s) == CaseOutcome::deferred;
        d["left_in"] = !block.not_left_in && !deferred;
        if (block.not_left_in) {
            d["out_ml"] = number(block.not_left_in->is.out);
        }
        list.push_back(std::move(d));
    }
    return list;
}

Json dose_list(const View& v) {
    Json list = Json::array();
    for (const auto& total : dose_totals(v.s, v.now)) {
        Json d{{"drug", total.drug}, {"total", number(total.total)}, {"unit", total.unit}};
        if (total.per_kg) {
            d["per_kg"] = Json::parse(*total.per_kg);
            d["per_kg_unit"] = total.per_kg_unit;
        }
        list.push_back(std::move(d));
    }
    return list;
}

Json sedation(const View& v) {
    Json s = Json::object();
    if (v.s.sedation_start) {
        s["start"] = v.time(v.s.sedation_start->happened);
    }
    if (v.s.sedation_end) {
        s["end"] = v.time(v.s.sedation_end->happened);
    }
    s["doses"] = dose_list(v);
    if (const auto lowest = lowest_spo2(v.s)) {
        s["lowest_spo2"] = Json{{"value", lowest->value}, {"at", v.time(lowest->at)}};
    }
    if (const auto due = next_vitals_due(v.s, v.policy)) {
        s["next_vitals_due"] = v.time(*due);
    }
    return s;
}

Json airway_events(const View& v) {
    Json list = Json::array();
    for (const auto& e : v.s.airway_events) {
        Json one{{"entry", e.start.seq}, {"start", v.time(e.start.happened)}};
        if (e.end) {
            one["end"] = v.time(*e.end);
            one["seconds"] = whole_seconds(*e.end - e.start.happened);
        }
        put(one, "lowest_spo2", e.lowest_spo2);
        one["actions"] = e.actions;
        list.push_back(std::move(one));
    }
    return list;
}

Json recovery(const View& v) {
    Json scores = Json::array();
    for (const auto& score : v.s.scores) {
        scores.push_back(Json{{"at", v.time(score.stamp.happened)},
                              {"scale", std::string{name_of(score.is.scale)}},
                              {"total", total_of(score.is)}});
    }
    Json r{{"scores", std::move(scores)}};
    if (v.s.accepted) {
        r["accepted"] = v.time(v.s.accepted->stamp.happened);
    }
    if (const auto fit = fit_since(v.s, v.policy); fit && *fit <= v.now) {
        r["fit_since"] = v.time(*fit);
    }
    return r;
}

Json dates(const View& v) {
    const auto d = dates_given(v.s, v.desk, v.policy, v.zone);
    Json out = Json::object();
    const auto date = [&](const char* key, const std::optional<LocalDate>& value) {
        if (value) {
            out[key] = date_text(*value);
        }
    };
    date("placed", d.placed);
    date("due", d.due);
    if (d.dwell_by_default) {
        out["dwell_by_default"] = true;  // the device is not known: the shortest dwell
    }
    date("latest", d.latest);
    date("book_by", d.book_by);
    if (d.clear_through) {
        out["diet"] = Json{{"clear_through", date_text(*d.clear_through)},
                           {"full_through", date_text(*d.full_through)},
                           {"soft_through", date_text(*d.soft_through)}};
    }
    if (d.no_driving_before) {
        out["no_driving_before"] = v.time(*d.no_driving_before);
    }
    if (d.call_first) {
        out["calls"] = Json::array({date_text(*d.call_first), date_text(*d.call_second)});
    }
    return out;
}

Json removal(const View& v) {
    const auto figures = removal_figures(v.s, v.desk, v.policy, v.zone);
    Json r = Json::object();
    if (figures.placement) {
        const auto& p = *figures.placement;
        r["entry"] = p.entry;
        r["placed"] = date_text(p.placed);
        r["due"] = date_text(p.due);
        if (p.volume) {
            r["filled_ml"] = number(*p.volume);
            r["filled_from"] = p.reported ? "reported" : "record";
        }
    }
    if (figures.recovered) {
        r["recovered_ml"] = number(*figures.recovered);
        r["state"] = std::string{rules::name_of(figures.compared.state)};
    }
    if (figures.compared.difference) {
        r["difference_ml"] = number(*figures.compared.difference);
        r["difference_percent"] = Json::parse(figures.compared.deviation->text(1));
    }
    put(r, "days_in_place", figures.days_in_place);
    if (figures.timing) {
        r["timing"] = std::string{rules::name_of(*figures.timing)};
    }
    if (v.s.out) {
        r["out"] = v.time(v.s.out->stamp.happened);
        r["complete"] = v.s.out->is.complete;
        r["kept"] = v.s.out->is.kept;
    }
    if (!v.s.fluid.empty()) {
        r["colour"] = v.s.fluid.back().is.colour;
    }
    return r;
}

std::optional<Json> weight_loss(const View& v) {
    const auto loss = weight_outcome(v.s, v.desk, v.policy, v.zone);
    if (!loss) {
        return std::nullopt;
    }
    Json w{{"tbwl_percent", Json::parse(loss->tbwl_percent.text(1))}};
    if (loss->ewl_percent) {
        w["ewl_percent"] = Json::parse(loss->ewl_percent->text(1));
    }
    if (loss->bmi_loss) {  // end - start, signed (10-decisions A19)
        const Fraction change{-loss->bmi_loss->numerator(), loss->bmi_loss->denominator()};
        w["bmi_change"] = Json::parse(change.text(1));
    }
    if (loss->reported) {
        w["reported"] = true;
    }
    return w;
}

Json signatures(const View& v) {
    Json list = Json::array();
    for (const auto& [part, stamp] : v.s.signatures) {
        list.push_back(
            Json{{"part", std::string{name_of(part)}}, {"by", stamp.by}, {"at", v.time(stamp.happened)}});
    }
    return list;
}

Json allergies(const View& v) {
    Json list = Json::array();
    if (v.s.allergies && v.s.allergies->is.list) {
        for (const auto& allergy : *v.s.allergies->is.list) {
            Json one{{"substance", allergy.substance}};
            put(one, "reaction", allergy.reaction);
            list.push_back(std::move(one));
        }
    }
    return list;
}

Json medicines(const View& v) {
    Json list = Json::array();
    for (const auto& medicine : v.s.medicines) {
        Json one{{"group", std::string{name_of(medicine.is.group)}}, {"name", medicine.is.name}};
        if (medicine.is.last_dose) {
            one["last_dose"] = date_text(*medicine.is.last_dose);
        }
        list.push_back(std::move(one));
    }
    return list;
}

Json prompt_list(const View& v) {
    Json list = Json::array();
    for (const auto& prompt : prompts(v.s, v.now, v.policy)) {
        list.push_back(Json{{"code", prompt.code},
                            {"priority", std::string{rules::name_of(prompt.priority)}},
                            {"say", prompt.say},
                            {"since", v.time(prompt.since)}});
    }
    return list;
}

void head(Json& out, const View& v) {
    out["case"] = v.s.name;
    out["kind"] = std::string{name_of(v.s.kind)};
    if (const auto outcome = outcome_of(v.s)) {
        out["outcome"] = std::string{name_of(*outcome)};
    }
    if (const auto stage = stage_of(v.s, v.zone, v.now)) {
        out["stage"] = std::string{name_of(*stage)};
    }
    out["patient"] = patient(v);
    out["now"] = v.time(v.now);
    if (v.s.planned) {
        out["planned"] = v.time(*v.s.planned);
    }
    put(out, "room", v.s.room);
    if (v.s.cancelled) {
        out["cancelled"] = v.s.cancelled->is.reason;
    }
}

void body(Json& out, const View& v) {
    if (v.s.allergies) {
        out["allergies"] = allergies(v);
    }
    if (const auto weight = weight_of(v.s)) {
        const auto kg = Decimal::of_millionths(weight->weight.in_tenths() * (Decimal::scale / 10));
        out["weight"] = Json{{"kg", number(kg)}, {"basis", std::string{name_of(weight->basis)}}};
    }
    out["medicines"] = medicines(v);
}

}  // namespace

Json show_case(const CaseState& state, const Desk& desk, const Policy& policy, const Zone& zone,
               Instant now) {
    const View v{state, desk, policy, zone, now};
    Json out = Json::object();
    head(out, v);
    out["gates"] = gates(v);
    out["holds"] = holds(v);
    out["provisos"] = provisos(v);
    out["open_items"] = open_items(v);
    out["prompts"] = prompt_list(v);
    body(out, v);
    if (state.kind == CaseKind::removal) {
        out["removal"] = removal(v);
        put(out, "outcome_weight", weight_loss(v));
    }
    if (state.kind == CaseKind::placement || state.device().label) {
        out["fill"] = fill(v);
        out["counts"] = counts(v);
        put(out, "matter", matter(v));
        put(out, "read_back", read_back(v));
        out["devices"] = devices(v);
    }
    out["sedation"] = sedation(v);
    out["airway_events"] = airway_events(v);
    out["recovery"] = recovery(v);
    out["dates"] = dates(v);
    out["signed"] = signatures(v);
    if (state.sealed) {
        out["sealed"] = Json{{"number", state.sealed->is.number}, {"hash", state.sealed->is.hash}};
    }
    return out;
}

}  // namespace brimline
