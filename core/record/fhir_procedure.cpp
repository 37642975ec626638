// What was done in a FHIR document: the look, the sedation, the placement or removal, each as a Procedure
// with who did what in it.
#include <fmt/format.h>

#include "core/desk/register.h"
#include "core/record/fhir_parts.h"

namespace brimline::fhir {
namespace {

constexpr std::string_view narrative = "29554-3";

/// Adds a performer once a role.
void performer(Document& d, Json& list, std::string_view function, std::string_view id) {
    if (id.empty() || id == "kiosk") {
        return;
    }
    list.push_back(Json{{"function", own(function, record::plain(function))}, {"actor", d.person(id)}});
}

std::string signer(const CaseState& s, Part part) {
    const auto found = s.signatures.find(part);
    return found == s.signatures.end() ? "" : found->second.by;
}

std::string physician_of(const CaseState& s) {
    const auto by_signature = signer(s, Part::physician);
    return !by_signature.empty() ? by_signature
           : s.go                ? Document::who(*s.go)
           : s.no_go             ? Document::who(s.no_go->stamp)
           : s.abandoned         ? Document::who(s.abandoned->stamp)
                                 : "";
}

std::string assistant_of(const CaseState& s) {
    for (const auto& delivery : s.device().deliveries) {
        return delivery.stamp.by;
    }
    return s.device().label ? s.device().label->stamp.by : "";
}

Json procedure(const Document& d, std::string_view status, Json code) {
    Json r{{"resourceType", "Procedure"}, {"status", std::string{status}}, {"code", std::move(code)}};
    r["subject"] = d.ref("patient");
    r["encounter"] = d.ref("encounter");
    return r;
}

std::string status_of(const CaseState& s) {
    const auto outcome = outcome_of(s);
    if (s.cancelled || outcome == CaseOutcome::deferred) {
        return "not-done";
    }
    if (outcome == CaseOutcome::abandoned) {
        return "stopped";
    }
    return outcome ? "completed" : s.scope_in || s.sedation_start ? "in-progress" : "preparation";
}

std::string reason_of(const Document& d) {
    const auto& s = d.v.s;
    const auto& reasons = d.v.policy.lists.refusal_reasons;
    return s.cancelled   ? s.cancelled->is.reason
           : s.no_go     ? record::words_of(reasons, s.no_go->is.reason)
           : s.abandoned ? record::words_of(reasons, s.abandoned->is.reason)
                         : "";
}

Json focal(const char* action, Json device) {
    Json f = Json::object();
    if (action != nullptr) {
        f["action"] = Json{{"coding", Json::array({coding("http://hl7.org/fhir/device-action", action)})}};
    }
    f["manipulated"] = std::move(device);
    return f;
}

void put_focal_devices(const Document& d, Json& r) {
    const auto& s = d.v.s;
    Json list = Json::array();
    if (s.kind == CaseKind::removal && placement_to_remove(s, d.v.desk, d.v.policy, d.v.zone)) {
        list.push_back(focal(s.out ? "explanted" : nullptr, d.ref("removed device")));
    }
    for (std::size_t i = 0; i < s.devices.size(); ++i) {
        const bool last = i + 1 == s.devices.size();
        if (s.devices[i].label) {
            const bool left = last && placed_at(s).has_value() && !s.devices[i].not_left_in;
            list.push_back(focal(left ? "implanted" : nullptr,
                                 d.ref(last ? std::string{"device"} : fmt::format("device {}", i + 1))));
        }
    }
    put(r, "focalDevice", std::move(list));
}

void add_main(Document& d) {
    const auto& s = d.v.s;
    const bool placement = s.kind == CaseKind::placement;
    auto r = procedure(d, status_of(s),
                       placement ? own("placement", "Placement of a fluid-filled gastric balloon")
                                 : own("removal", "Removal of a fluid-filled gastric balloon"));
    const auto happened = [](const std::optional<Stamp>& stamp) {
        return stamp ? std::optional{stamp->happened} : std::nullopt;
    };
    if (status_of(s) == "not-done" || status_of(s) == "stopped") {
        put(r, "statusReason", words_only(reason_of(d).empty() ? "reason not recorded" : reason_of(d)));
    }
    if (status_of(s) != "not-done") {
        put(r, "performedPeriod", period(happened(s.scope_in), happened(s.scope_out)));
    }
    Json team = Json::array();
    performer(d, team, "physician", physician_of(s));
    performer(d, team, "assistant", assistant_of(s));
    performer(d, team, "sedation-provider", s.sedation_start ? s.sedation_start->by : "");
    put(r, "performer", std::move(team));
    if (s.room && !s.room->empty()) {
        r["location"] = d.ref("room");
    }
    if (const auto outcome = outcome_of(s)) {
        r["outcome"] = own(name_of(*outcome), name_of(*outcome));
    }
    put_focal_devices(d, r);
    d.add_to(narrative, "procedure", std::move(r));
}

void add_sedation_and_look(Document& d) {
    const auto& s = d.v.s;
    const auto part = [&](const char* code, const char* words, const Stamp& from,
                          const std::optional<Stamp>& to, const std::string& who, std::string_view function) {
        const bool ended = to && to->happened >= from.happened;
        auto r = procedure(d, ended ? "completed" : "in-progress", own(code, words));
        r["partOf"] = Json::array({d.ref("procedure")});
        r["performedPeriod"] = period(from.happened, ended ? std::optional{to->happened} : std::nullopt);
        Json team = Json::array();
        performer(d, team, function, who);
        put(r, "performer", std::move(team));
        d.add_to(narrative, code, std::move(r));
    };
    if (s.sedation_start) {
        part("sedation", "Sedation", *s.sedation_start, s.sedation_end, s.sedation_start->by,
             "sedation-provider");
    }
    if (s.scope_in) {
        part("look", "Upper endoscopy", *s.scope_in, s.scope_out, physician_of(s), "physician");
    }
}

}  // namespace

void add_procedures(Document& d) {
    add_main(d);
    add_sedation_and_look(d);
}

}  // namespace brimline::fhir
