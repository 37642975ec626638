// What was asked in a FHIR document: identity, consent, allergies, screen, medicines, airway, pauses, scores,
// symptoms.
#include <fmt/format.h>

#include "core/record/fhir_parts.h"

namespace brimline::fhir {
namespace {

constexpr std::string_view narrative = "29554-3";
constexpr std::string_view perioperative = "29752-3";
constexpr std::string_view recovery_section = "8653-8";

void finish(Document& d, std::string_view section, std::string_view key, Json response, Json items) {
    if (!items.empty()) {
        response["item"] = std::move(items);
        d.add_to(section, key, std::move(response));
    }
}

void add_identity(Document& d) {
    const auto& s = d.v.s;
    Json items = Json::array();
    std::optional<Stamp> stamp;
    if (s.identity) {
        std::vector<std::string> stated;
        for (const auto one : s.identity->is.identifiers) {
            stated.emplace_back(name_of(one));
        }
        stamp = s.identity->stamp;
        items.push_back(text_item("identity", "Identifiers stated by the patient", record::joined(stated)));
    }
    if (s.consent) {
        const auto& is = s.consent->is;
        const auto form = is.form                        ? name_of(*is.form)
                          : is.is_signed.value_or(false) ? std::string_view{"signed"}
                                                         : std::string_view{"not-signed"};
        stamp = s.consent->stamp;
        items.push_back(coded_item("consent", "Consent", form));
    }
    if (stamp) {
        finish(d, perioperative, "identity", answers(d, "identity-and-consent", *stamp), std::move(items));
    }
}

void add_allergies(Document& d) {
    const auto& said = d.v.s.allergies;
    if (!said) {
        return;
    }
    const auto list = said->is.list.value_or(std::vector<Allergy>{});
    Json items = Json::array({coded_item("allergies", "Allergies", list.empty() ? "none-known" : "listed")});
    finish(d, narrative, "allergies", answers(d, "allergies", said->stamp), std::move(items));
    for (std::size_t i = 0; i < list.size(); ++i) {
        const auto status = system_named("allergyintolerance-clinical");
        Json r{{"resourceType", "AllergyIntolerance"},
               {"clinicalStatus", Json{{"coding", Json::array({coding(status, "active")})}}},
               {"code", words_only(list[i].substance)},
               {"patient", d.ref("patient")},
               {"encounter", d.ref("encounter")},
               {"recordedDate", utc_text(said->stamp.at)}};
        if (list[i].reaction && !list[i].reaction->empty()) {
            r["reaction"] =
                Json::array({Json{{"manifestation", Json::array({words_only(*list[i].reaction)})}}});
        }
        d.add_to(narrative, fmt::format("allergy {}", i), std::move(r));
    }
}

void add_screen(Document& d) {
    Json items = Json::array();
    std::optional<Stamp> stamp;
    for (const auto& [check, answer] : d.v.s.answers) {
        auto item =
            coded_item(check, record::words_of(d.v.policy.lists.screen, check), name_of(answer.is.value));
        if (answer.is.note && !answer.is.note->empty()) {
            item["answer"][0]["item"] = Json::array({text_item(check + "-note", "Note", *answer.is.note)});
        }
        items.push_back(std::move(item));
        stamp = !stamp || stamp->at < answer.stamp.at ? answer.stamp : *stamp;
    }
    if (stamp) {
        finish(d, perioperative, "screen", answers(d, "screen", *stamp), std::move(items));
    }
}

void add_medicines(Document& d) {
    Json items = Json::array();
    for (const auto& one : d.v.s.medicines) {
        const auto& is = one.is;
        const auto last = is.last_dose ? ", last " + date_text(*is.last_dose) : "";
        items.push_back(text_item(key_of("medicine", one.stamp), record::group_words(is.group),
                                  fmt::format("{}{}", is.name.empty() ? "not named" : is.name, last)));
    }
    if (!d.v.s.medicines.empty()) {
        finish(d, perioperative, "medicines", answers(d, "medicines", d.v.s.medicines.back().stamp),
               std::move(items));
    }
}

void add_fasting(Document& d) {
    Json items = Json::array();
    for (const auto& one : d.v.s.intakes) {
        const auto& last = one.is.last;
        const auto words = last.kind == LastIntake::Kind::at          ? utc_text(last.at)
                           : last.kind == LastIntake::Kind::not_known ? "not known"
                                                                      : "vomiting";
        items.push_back(text_item(key_of("intake", one.stamp), record::intake_words(one.is.kind), words));
    }
    if (!d.v.s.intakes.empty()) {
        finish(d, perioperative, "fasting", answers(d, "fasting", d.v.s.intakes.back().stamp),
               std::move(items));
    }
}

/// ASA classes as values. Source: interchange.md 1.3 (value set page of the HL7 HAI guide); class VI has no
/// code there.
Json asa_class(int asa) {
    static constexpr std::array<std::string_view, 5> codes{"413495001", "413496000", "413497009", "413498004",
                                                           "413499007"};
    const auto words = fmt::format("ASA class {}", asa);
    return asa >= 1 && asa <= static_cast<int>(codes.size())
               ? concept_of(snomed, codes[static_cast<std::size_t>(asa - 1)], words)
               : words_only(words);
}

void add_airway(Document& d) {
    if (!d.v.s.airway) {
        return;
    }
    const auto& [stamp, is] = *d.v.s.airway;
    auto asa = observation(d, "exam", own("asa", "ASA physical status class"), stamp);
    asa["valueCodeableConcept"] = asa_class(is.asa);
    d.add_to(perioperative, "asa", std::move(asa));
    auto mallampati = observation(d, "exam", own("mallampati", "Mallampati class"), stamp);
    mallampati["valueInteger"] = is.mallampati;
    d.add_to(perioperative, "mallampati", std::move(mallampati));
    const auto yes_no = [](bool yes) { return std::string_view{yes ? "yes" : "no"}; };
    Json items = Json::array(
        {coded_item("earlier-trouble", "Trouble with earlier sedation", yes_no(is.earlier_trouble)),
         coded_item("own-cpap", "Own breathing support at night", yes_no(is.own_cpap))});
    if (is.stop_bang) {
        const auto add_item = [&](const char* id, const std::optional<bool>& value) {
            if (value) {
                items.push_back(coded_item(id, record::plain(id), yes_no(*value)));
            }
        };
        add_item("snores", is.stop_bang->snores);
        add_item("tired", is.stop_bang->tired);
        add_item("observed", is.stop_bang->observed);
        add_item("pressure", is.stop_bang->pressure);
        if (is.stop_bang->neck_cm) {
            items.push_back(text_item("neck", "Neck, cm", is.stop_bang->neck_cm->text()));
        }
    }
    finish(d, perioperative, "airway", answers(d, "airway", stamp), std::move(items));
}

const std::vector<Check>& checks_of(const Document& d, PauseKind which) {
    const auto& lists = d.v.policy.lists;
    return which == PauseKind::before_sedation ? lists.before_sedation
           : which == PauseKind::before_device ? lists.before_device
                                               : lists.before_leaving;
}

void add_pause(Document& d, PauseKind which, const PauseHeld& held) {
    Json items = Json::array();
    for (const auto& [check, answer] : held.answers) {
        items.push_back(coded_item(check, record::words_of(checks_of(d, which), check), name_of(answer)));
    }
    std::vector<std::string> present;
    for (const auto& id : held.present) {
        present.push_back(d.v.person(id));
    }
    if (!present.empty()) {
        items.push_back(text_item("present", "Present", record::joined(present)));
    }
    items.push_back(text_item("took", "Took", record::span_words(held.last.at - held.first.happened)));
    finish(d, perioperative, fmt::format("pause {}", name_of(which)),
           answers(d, fmt::format("pause-{}", name_of(which)), held.first), std::move(items));
}

void add_score(Document& d, const Noted<Score>& score) {
    const auto key = key_of("score", score.stamp);
    const bool aldrete = score.is.scale == Scale::aldrete;
    Json items = Json::array();
    Score::fields(score.is, [&](std::string_view name, const auto& member) {
        if constexpr (std::is_same_v<std::decay_t<decltype(member)>, std::optional<int>>) {
            if (member) {
                items.push_back(Json{{"linkId", std::string{name}},
                                     {"text", record::plain(name)},
                                     {"answer", Json::array({Json{{"valueInteger", *member}}})}});
            }
        }
    });
    if (items.empty()) {
        return;
    }
    finish(d, recovery_section, key, answers(d, name_of(score.is.scale), score.stamp), std::move(items));
    auto o = observation(d, "survey",
                         own(aldrete ? "aldrete-total" : "padss-total",
                             aldrete ? "Modified Aldrete score, total" : "Readiness for home (PADSS), total"),
                         score.stamp);
    o["valueInteger"] = total_of(score.is);
    o["derivedFrom"] = Json::array({d.ref(key)});
    d.add_to(recovery_section, key + " total", std::move(o));
}

void add_symptom(Document& d, const Noted<Symptom>& symptom) {
    const auto& is = symptom.is;
    const auto code = is.kind == SymptomKind::pain
                          ? concept_of(loinc, "72514-3", "Pain, 0 to 10, verbal rating, reported")
                          : own(name_of(is.kind), record::plain(name_of(is.kind)));
    auto o = observation(d, "survey", code, symptom.stamp);
    if (is.value) {
        o["valueQuantity"] = quantity(*is.value, "of 10", "{score}");
    } else if (is.ml) {
        o["valueQuantity"] = quantity(*is.ml);
    } else {
        o["valueString"] = "present";
    }
    if (is.blood) {
        o["component"] = Json::array({component(own("blood", "Blood in it"), "valueBoolean", *is.blood)});
    }
    d.add_to(recovery_section, key_of("symptom", symptom.stamp), std::move(o));
}

}  // namespace

void add_answers(Document& d) {
    add_identity(d);
    add_allergies(d);
    add_fasting(d);
    add_medicines(d);
    add_screen(d);
    add_airway(d);
    for (const auto& [which, held] : d.v.s.pauses) {
        add_pause(d, which, held);
    }
}

void add_recovery(Document& d) {
    for (const auto& score : d.v.s.scores) {
        add_score(d, score);
    }
    for (const auto& symptom : d.v.s.symptoms) {
        add_symptom(d, symptom);
    }
    for (const auto& drink : d.v.s.drinks) {
        auto o = observation(d, "survey", own("drink", "Drink"), drink.stamp);
        o["valueQuantity"] = quantity(drink.is.ml);
        if (drink.is.kept) {
            o["component"] =
                Json::array({component(own("kept", "Kept down"), "valueBoolean", *drink.is.kept)});
        }
        d.add_to(recovery_section, key_of("drink", drink.stamp), std::move(o));
    }
}

}  // namespace brimline::fhir
