// Fields that exclude each other or go together, one overload a statement.
#include "core/case/codec_checks.h"

namespace brimline::codec {
namespace {

void in_span(std::string field, int value, int low, int high, Fault& fault) {
    if (value < low || value > high) {
        fault.set(std::move(field), fmt::format("{} to {} are allowed", low, high));
    }
}

template <class T>
void check(const T&, Fault&) {}

void check(const Vitals& v, Fault& fault) {
    const bool any = v.hr || v.systolic || v.diastolic || v.spo2 || v.rr || v.etco2;
    if (v.not_taken && any) {
        return fault.set("not_taken", "stands alone: either the values or why they were not taken");
    }
    const std::array<std::pair<const char*, bool>, 5> needed{{{"hr", v.hr.has_value()},
                                                              {"systolic", v.systolic.has_value()},
                                                              {"diastolic", v.diastolic.has_value()},
                                                              {"spo2", v.spo2.has_value()},
                                                              {"rr", v.rr.has_value()}}};
    for (const auto& [name, there] : needed) {
        if (!v.not_taken && !there) {
            return fault.set(name, "is missing; hr, systolic, diastolic, spo2 and rr, or not_taken");
        }
    }
}
void check(const Consent& c, Fault& fault) {
    if (c.is_signed.has_value() == c.form.has_value()) {
        fault.set("signed", "true or false is needed, or form: signed, spoken-with-witness, not-possible");
    }
}
void check(const Allergies& a, Fault& fault) {
    const bool none = a.none_known.value_or(false);
    const bool listed = a.list && !a.list->empty();
    if (none == listed) {
        fault.set(none ? "none_known" : "list",
                  "either none_known true, or a list with at least one substance");
    }
}
void check(const Airway& a, Fault& fault) {
    in_span("asa", a.asa, 1, 6, fault);
    in_span("mallampati", a.mallampati, 1, 4, fault);
}
void check(const Depth& d, Fault& fault) { in_span("moaas", d.moaas, 0, 5, fault); }
void check(const Identity& i, Fault& fault) {
    if (i.identifiers.empty()) {
        fault.set("identifiers", "at least one of name, born, number, address is needed");
    }
}
void check(const Move& m, Fault& fault) {
    if (!m.planned && !m.room && !m.position) {
        fault.set("planned", "is missing; one of planned, room, position");
    }
}
void check(const Device& d, Fault& fault) {
    const int ways = int{d.raw.has_value()} + int{d.typed.has_value()} + int{d.unreadable.value_or(false)};
    if (ways != 1) {
        return fault.set("raw", "exactly one of raw, typed, unreadable true is needed");
    }
    if (d.typed && !d.verified_by) {
        return fault.set("verified_by", "is missing: who read the last four of the typed label");
    }
    if (!d.typed && d.verified_by) {
        fault.set("verified_by", "goes with a typed label only");
    }
}
void check(const Dye& d, Fault& fault) {
    const bool some = d.agent || d.ml || d.in_first_syringe;
    if (d.none.value_or(false)) {
        return some ? fault.set("none", "stands alone: either none true, or agent, ml and in_first_syringe")
                    : void();
    }
    if (!d.agent || !d.ml || !d.in_first_syringe) {
        fault.set(!d.agent ? "agent"
                  : !d.ml  ? "ml"
                           : "in_first_syringe",
                  "is missing; agent, ml and in_first_syringe, or none true");
    }
}
void check(const Saline& s, Fault& fault) {
    if (s.laid_out && (*s.laid_out < 0 || *s.laid_out > 100)) {
        fault.set("laid_out", "0 to 100 syringes are allowed");
    }
}
void check(const SalineAdded& s, Fault& fault) {
    if (s.full.has_value() == s.bag_g.has_value()) {
        fault.set("full", "exactly one of full, bag_g is needed");
    }
}
void check(const Matter& m, Fault& fault) {
    if (m.full_left && m.scale_g) {
        fault.set("full_left", "full_left for a row or scale_g for a closed tap, not both");
    }
}
void check(const GoOnFilling& g, Fault& fault) {
    const bool some = g.syringes || g.ml;
    if ((g.pushed_meanwhile == Pushed::more) != some) {
        return fault.set("syringes", "syringes or ml are needed with pushed_meanwhile more, and only there");
    }
    if (g.syringes && g.ml) {
        fault.set("ml", "syringes or ml, not both");
    }
}
void check(const ReadBack& r, Fault& fault) {
    if (r.from && *r.from != "pedal") {
        return fault.set("from", "allowed is pedal");
    }
    if (r.ml.has_value() == r.from.has_value()) {
        fault.set("ml", "is missing; ml as said, or from \"pedal\"");
    }
}
void check(const Score& s, Fault& fault) {
    Score::fields(s, [&](std::string_view name, const auto& part) {
        if constexpr (std::is_same_v<std::decay_t<decltype(part)>, std::optional<int>>) {
            const bool own = (s.scale == Scale::aldrete) ==
                             (name == "activity" || name == "respiration" || name == "circulation" ||
                              name == "consciousness" || name == "oxygen");
            if (part && !own) {
                fault.set(std::string{name}, fmt::format("is not a part of {}", name_of(s.scale)));
            } else if (!part && own) {
                fault.set(std::string{name},
                          fmt::format("is missing: every part of {} is answered", name_of(s.scale)));
            } else if (part) {
                in_span(std::string{name}, *part, 0, 2, fault);
            }
        }
    });
}
void check(const Symptom& s, Fault& fault) {
    if (s.blood && s.kind != SymptomKind::vomiting) {
        return fault.set("blood", "only vomiting has blood");
    }
    if (s.kind == SymptomKind::vomiting) {
        return s.value ? fault.set("value", "nausea and pain have a value, vomiting has ml") : void();
    }
    if (!s.value) {
        return fault.set("value", "is missing: 0 to 10");
    }
    in_span("value", *s.value, 0, 10, fault);
    if (s.ml) {
        fault.set("ml", "only vomiting has ml");
    }
}
void check(const Correct& c, Fault& fault) {
    if (!c.entry && !c.ml) {
        return fault.set("entry",
                         "is missing; entry and what changes, or ml for a syringe not tapped or too many");
    }
    if (!c.entry && c.changes != "{}") {
        fault.set("entry", "is missing: the entry whose fields change");
    }
}
void check(const Canister& c, Fault& fault) {
    if (c.new_ml && c.moment != CanisterMoment::change) {
        fault.set("new_ml", "goes with moment change only");
    }
}
void check(const Call& c, Fault& fault) {
    if (c.next && !c.next->date && !c.next->words) {
        fault.set("next", "a date, words, or both are needed");
    }
}
void check(const PatientChange& p, Fault& fault) {
    const auto& to = p.to;
    if (!to.number && !to.family_name && !to.given_name && !to.born && !to.sex_at_birth && !to.phone &&
        !to.language) {
        fault.set("number", "is missing; at least one field of the patient is needed");
    }
}
void check(const AddPerson& p, Fault& fault) {
    if (p.roles.empty()) {
        fault.set("roles", "at least one role is needed");
    }
}
void check(const PatientBooked& p, Fault& fault) {
    if (p.number.empty() || p.family_name.empty()) {
        fault.set(p.number.empty() ? "patient.number" : "patient.family_name", "must not be empty");
    }
}
void check(const Book& b, Fault& fault) { check(b.patient, fault); }
void check(const NoFindings& n, Fault& fault) {
    if (!n.list_read) {
        fault.set("list_read", "true is needed: none of these is said only after the whole list was read");
    }
}
void check(const Sample& s, Fault& fault) {
    if (s.pieces < 1 || s.pieces > 50) {
        fault.set("pieces", "1 to 50 are allowed");
    }
}

}  // namespace

void check_whole(const Statement& says, Fault& fault) {
    std::visit([&](const auto& s) { check(s, fault); }, says);
}

}  // namespace brimline::codec
