// What each entry says, in words, for the timeline. One overload an event and no catch-all: a new event does
// not compile until it has its words here.
#include <fmt/format.h>

#include "core/record/text_entry_after.h"
#include "core/rules/depth.h"
#include "core/rules/vitals.h"

namespace brimline::record {
namespace {

std::string quoted(const std::optional<std::string>& words) {
    return words ? fmt::format(", \"{}\"", *words) : "";
}
std::string amount_words(Decimal amount, std::string_view unit) {
    return amount.text() + " " + unit_words(unit);
}

std::string patient_words(const PatientKnown& p) {
    std::string words = p.family_name.value_or("unknown") + (p.given_name ? ", " + *p.given_name : "");
    words += p.born ? ", born " + date_words(*p.born) : "";
    return words + (p.number ? ", " + *p.number : "");
}

struct Tell : TellAfter {
    using TellAfter::operator();

    std::string reason(std::string_view id) const {
        return lowered(words_of(v.policy.lists.refusal_reasons, id));
    }

    // The list and Arrival
    std::string operator()(const Booked& e) const {
        auto words = fmt::format("{} {}: {}", name_of(e.kind), e.started_now ? "started at once" : "booked",
                                 patient_words(e.patient));
        words += e.planned ? ", planned " + v.moment(*e.planned) : "";
        return words + (e.room ? ", " + *e.room : "");
    }
    std::string operator()(const WeightKnown& e) const {
        return fmt::format("Weight {} kg, {}", e.weight_kg.text(), name_of(e.weight_basis));
    }
    std::string operator()(const Move& e) const {
        auto words = std::string{"List changed"};
        words += e.planned ? ": planned " + v.moment(*e.planned) : "";
        words += e.room ? ", " + *e.room : "";
        words += e.position ? fmt::format(", place {}", *e.position) : "";
        return words + "; " + e.reason;
    }
    std::string operator()(const Cancel& e) const { return "Cancelled: " + e.reason; }
    std::string operator()(const EnteredRoom& e) const {
        return fmt::format("{}, birth day and month typed again: {}", e.room, e.match ? "match" : "NO MATCH");
    }
    std::string operator()(const Identity& e) const {
        std::vector<std::string> parts;
        for (const auto i : e.identifiers) {
            parts.emplace_back(name_of(i));
        }
        return "Identity stated: " + joined(parts);
    }
    std::string operator()(const Consent& e) const {
        const auto form = e.form                        ? plain(name_of(*e.form))
                          : e.is_signed.value_or(false) ? "signed"
                                                        : "not signed";
        return "Consent " + form + (e.reason ? ", " + *e.reason : "");
    }
    std::string operator()(const Allergies& e) const {
        std::vector<std::string> parts;
        for (const auto& one : e.list.value_or(std::vector<Allergy>{})) {
            parts.push_back(one.substance + (one.reaction ? " (" + *one.reaction + ")" : ""));
        }
        return "Allergies: " + (parts.empty() ? "none known" : joined(parts));
    }
    std::string operator()(const Measure& e) const {
        return fmt::format("Weight {} kg ({}), height {} cm", e.weight_kg.text(), name_of(e.weight_basis),
                           e.height_cm.text());
    }
    std::string operator()(const Intake& e) const {
        const auto kind = intake_words(e.kind);
        return e.last.kind == LastIntake::Kind::at
                   ? fmt::format("Last taken: {} {}", kind, v.moment(e.last.at))
               : e.last.kind == LastIntake::Kind::not_known ? fmt::format("Last taken: {} not known", kind)
                                                            : fmt::format("Last taken: {}, vomiting", kind);
    }
    std::string operator()(const Medicine& e) const {
        return fmt::format("Medicine: {} ({}){}", e.name, group_words(e.group),
                           e.last_dose ? ", last " + date_words(*e.last_dose) : "");
    }
    std::string operator()(const Answer& e) const {
        return fmt::format("Asked: {}: {}{}", plain(e.check), plain(name_of(e.value)), quoted(e.note));
    }
    std::string operator()(const Airway& e) const {
        return fmt::format("ASA {}, Mallampati {}", e.asa, e.mallampati);
    }
    std::string operator()(const Escort& e) const {
        return fmt::format("Escort {}, {}{}", e.name, e.phone, e.present.value_or(false) ? ", present" : "");
    }
    std::string operator()(const Unchanged& e) const {
        return fmt::format("{} unchanged since {}", plain(name_of(e.block)), date_words(e.since));
    }

    // Sedation
    std::string operator()(const Vitals& e) const {
        if (e.not_taken) {
            return "Vital signs not taken: " + *e.not_taken;
        }
        std::vector<std::string> parts;
        const auto put = [&](const char* name, const std::optional<int>& value, const char* unit) {
            if (value) {
                parts.push_back(fmt::format("{} {}{}", name, *value, unit));
            }
        };
        put("HR", e.hr, "");
        if (e.systolic && e.diastolic) {
            const auto map = rules::mean_pressure(*e.systolic, *e.diastolic);
            parts.push_back(
                fmt::format("BP {}/{}{}", *e.systolic, *e.diastolic,
                            map ? " (" + rules::map_text(*map, v.policy.vitals.map_below) + ")" : ""));
        } else {
            put("systolic", e.systolic, "");
            put("diastolic", e.diastolic, "");
        }
        put("SpO2", e.spo2, " %");
        put("RR", e.rr, "");
        put("EtCO2", e.etco2, " mmHg");
        return joined(parts);
    }
    std::string operator()(const Pause& e) const {
        std::vector<std::string> people;
        for (const auto& id : e.present) {
            people.push_back(v.person(id));
        }
        const auto answers = counted(static_cast<std::int64_t>(e.answers.size()), "check", "checks");
        return fmt::format("Pause {}: {}; present {}", plain(name_of(e.which)), answers, joined(people));
    }
    std::string operator()(const MonitorClock& e) const {
        return fmt::format("Clock of the monitor {} against the kiosk", offset_words(e.offset_s));
    }
    std::string operator()(const Overridden& e) const {
        auto words =
            fmt::format("OVERRIDE of {}: {}{}", e.hold,
                        lowered(words_of(v.policy.lists.override_reasons, e.reason)), quoted(e.words));
        words += e.proviso ? fmt::format("; proviso at {}: {}", plain(e.proviso->stage), e.proviso->condition)
                           : "";
        return words + (e.to_countersign ? "; to countersign" : "");
    }
    std::string operator()(const AnswerProviso& e) const {
        return fmt::format("Proviso {} answered {}{}", e.proviso, name_of(e.value), quoted(e.note));
    }
    std::string operator()(const StartSedation&) const { return "Sedation start"; }
    std::string operator()(const EndSedation&) const { return "Sedation end"; }
    std::string operator()(const Dose& e) const {
        return fmt::format("{} {}{}{}", drug_words(v.policy, e.drug), amount_words(e.amount, name_of(e.unit)),
                           e.route ? ", " + *e.route : "",
                           e.free.value_or(false) ? " (drug typed freely)" : "");
    }
    std::string operator()(const InfusionStart& e) const {
        return fmt::format("{} infusion {} {} started", drug_words(v.policy, e.drug), e.rate.text(),
                           name_of(e.unit));
    }
    std::string operator()(const InfusionStop& e) const {
        return drug_words(v.policy, e.drug) + " infusion stopped";
    }
    std::string operator()(const Depth& e) const {
        return fmt::format("MOAA/S {}: {}", e.moaas, rules::moaas_words(e.moaas));
    }
    std::string operator()(const Oxygen& e) const { return fmt::format("Oxygen {} L/min", e.l_min.text()); }
    std::string operator()(const AirwayEvent&) const { return "AIRWAY EVENT begins"; }
    std::string operator()(const AirwayEventEnd& e) const {
        std::vector<std::string> parts;
        for (const auto& action : e.action.value_or(Words{}).list) {
            parts.push_back(lowered(words_of(v.policy.lists.airway_actions, action)));
        }
        return fmt::format("Airway event (entry {}) ended{}{}", e.event.seq,
                           e.lowest_spo2 ? fmt::format(", lowest SpO2 {} %", *e.lowest_spo2) : "",
                           parts.empty() ? "" : "; " + joined(parts));
    }
    std::string operator()(const AirwaySecured& e) const { return "AIRWAY SECURED, tube " + e.tube.text; }
    std::string operator()(const AirwayFreed&) const { return "Tube out"; }
    std::string operator()(const Emergency&) const { return "EMERGENCY begins"; }
    std::string operator()(const HelpCalled&) const { return "Help called"; }
    std::string operator()(const EmergencyEnd& e) const {
        return fmt::format("Emergency ended: {}{}", lowered(words_of(v.policy.lists.emergency_kinds, e.kind)),
                           e.action ? "; " + *e.action : "");
    }
    std::string operator()(const HandOverRole& e) const {
        return fmt::format("Role {} handed over to {}", plain(e.role), v.person(e.to));
    }
    std::string operator()(const AcceptRole& e) const {
        return fmt::format("Role {} accepted", plain(e.role));
    }
    std::string operator()(const WhoItWas& e) const {
        return fmt::format("Entries made while nobody was signed in, up to here: {}{}",
                           e.person == "not-known" ? "whose is not known" : "by " + v.person(e.person),
                           e.words ? "; " + *e.words : "");
    }
    std::string operator()(const Seen& e) const {
        return fmt::format("Seen by the physician: {}", plain(e.item));
    }

    // Look and Place
    std::string operator()(const ScopeIn&) const { return "Scope in"; }
    std::string operator()(const ScopeOut&) const { return "Scope out"; }
    std::string operator()(const Finding& e) const {
        return fmt::format("Finding: {}{}{}{}", lowered(words_of(v.policy.lists.findings, e.kind)),
                           e.grade ? " grade " + *e.grade : "",
                           e.size_cm ? fmt::format(" {} cm", e.size_cm->text()) : "", quoted(e.note));
    }
    std::string operator()(const NoFindings& e) const {
        const std::string what = v.s.findings.empty() ? "No findings" : "No other findings";
        return what + (e.list_read ? ", the whole list read" : ", the list not read through");
    }
    std::string operator()(const Sample& e) const {
        return fmt::format("Sample: {}, {}, {}; owner {}, due {}",
                           lowered(words_of(v.policy.lists.samples, e.kind)),
                           lowered(words_of(v.policy.lists.sample_sites, e.site)),
                           counted(e.pieces, "piece", "pieces"), v.person(e.owner), date_words(e.due));
    }
    std::string operator()(const Go&) const { return "GO"; }
    std::string operator()(const NoGo& e) const {
        auto words = fmt::format("NO-GO: {}{}", reason(e.reason), quoted(e.words));
        words += e.look_again
                     ? fmt::format("; look again not before {}, {}", date_words(e.look_again->not_before),
                                   v.person(e.look_again->owner))
                     : "";
        return words + (e.returned
                            ? "; device back to stock" + (e.returned->lot ? ", lot " + *e.returned->lot : "")
                            : "");
    }
    std::string operator()(const DeviceOpened& e) const {
        return fmt::format("{}: {}", e.again ? "Label read again" : "Device opened",
                           label_words({Stamp{}, e}, v));
    }
    std::string operator()(const Plan& e) const {
        return fmt::format("Plan: band {} to {}, aim {}{}{}", ml_words(e.band_low), ml_words(e.band_high),
                           ml_words(e.aim), e.ceiling ? ", ceiling " + ml_words(*e.ceiling) : "",
                           e.syringe ? ", syringe " + ml_words(*e.syringe) : "");
    }
    std::string operator()(const Saline& e) const {
        auto words = fmt::format("Saline, {}", plain(name_of(e.method)));
        words += e.laid_out ? fmt::format(": {} laid out", counted(*e.laid_out, "syringe", "syringes")) : "";
        words += e.scale_g ? fmt::format(": {} g on the scale", e.scale_g->text()) : "";
        words += e.filled_to ? fmt::format(", filled to {}", ml_words(*e.filled_to)) : "";
        words += e.lot ? ", lot " + *e.lot : "";
        return words + (e.expiry ? ", expiry " + date_words(*e.expiry) : "");
    }
    std::string operator()(const SalineAdded& e) const {
        return e.full ? fmt::format("Saline added: {}", counted(*e.full, "syringe", "syringes"))
                      : fmt::format("Saline added: {} g", e.bag_g.value_or(Decimal{}).text());
    }
    std::string operator()(const Dye& e) const {
        return e.ml ? fmt::format("Dye: {} {}, {}", e.agent.value_or("agent not named"), ml_words(*e.ml),
                                  e.in_first_syringe.value_or(true) ? "in the first syringe" : "on top")
                    : "No dye";
    }
    std::string operator()(const BalloonPassed&) const { return "Balloon passed"; }
    std::string operator()(const PositionSeen&) const { return "Position seen: wholly below the junction"; }
    std::string operator()(const ReadyToFill&) const { return "Ready to fill"; }

    // Fill and Size
    std::string operator()(const SyringeCounted& e) const {
        return fmt::format("Syringe in, {}", ml_words(e.ml));
    }
    std::string operator()(const PartSyringe& e) const {
        return fmt::format("Part syringe, {}", ml_words(e.ml));
    }
    std::string operator()(const DrawBack& e) const { return fmt::format("Drawn back, {}", ml_words(-e.ml)); }
    std::string operator()(const SecondCount&) const { return "Pedal pressed by the physician"; }
    std::string operator()(const DoubleTapAsked& e) const {
        return fmt::format("Tap too soon ({}, {}): second syringe, or the same one twice?", e.question,
                           ml_words(e.ml));
    }
    std::string operator()(const DoubleTapWas& e) const {
        return fmt::format("Tap {}: {}", e.question,
                           e.answer == SecondOrSame::second ? "a second syringe" : "the same one twice");
    }
    std::string operator()(const StopFilling& e) const {
        return fmt::format("STOP of the fill: {}{}", plain(name_of(e.reason)), quoted(e.words));
    }
    std::string operator()(const WentOn& e) const {
        const auto meanwhile = e.ml == Millilitres{} ? std::string{"none"} : ml_words(e.ml);
        return fmt::format("Fill goes on; pushed meanwhile: {}", meanwhile);
    }
    std::string operator()(const CountsCompared& e) const {
        return fmt::format("Count check: said {}, counted {}{}: {}", e.said, e.own,
                           e.pedal ? fmt::format(", pedal {}", *e.pedal) : "",
                           e.agreed      ? "agree"
                           : e.parted_at ? "DIFFER, parted at " + v.clock_s(*e.parted_at)
                                         : "DIFFER");
    }
    std::string operator()(const Matter& e) const {
        return e.full_left ? fmt::format("Matter check, row: {} full left over", *e.full_left)
               : e.scale_g ? fmt::format("Matter check, scale: {} g", e.scale_g->text())
                           : "Matter check: pair, no third witness";
    }
    std::string operator()(const Sizing& e) const {
        return fmt::format(
            "Sizing: gap all round {}, passes alongside {}, not wedged {}, no blanching {}, {}{}",
            yes_no(e.gap), yes_no(e.passes), yes_no(e.not_wedged), yes_no(e.no_blanching),
            name_of(e.position), e.tolerated ? ", tolerated " + yes_no(*e.tolerated) : "");
    }
    std::string operator()(const ReadBackSaid& e) const {
        return fmt::format("Read-back {}: {}, count covered, counted {}: {}",
                           e.from_pedal ? "from the pedal" : "said", ml_words(e.ml), ml_words(e.counted),
                           e.agreed ? "EQUAL" : "NOT EQUAL");
    }
    std::string operator()(const Explain& e) const {
        return fmt::format("Reason for {}: {}{}", plain(name_of(e.what)),
                           lowered(words_of(v.policy.lists.override_reasons, e.reason)), quoted(e.words));
    }
    std::string operator()(const Corrected& e) const {
        return e.withdrawn ? fmt::format("CORRECTION: entry {} withdrawn, \"{}\"", e.entry, e.reason)
                           : fmt::format("CORRECTION of entry {}: {} became {}, \"{}\"", e.entry,
                                         fields_words(e.before), fields_words(e.after), e.reason);
    }
    std::string operator()(const CountCorrected& e) const {
        return fmt::format("CORRECTION of the count {}, \"{}\"{}", signed_ml_words(e.ml), e.reason,
                           e.with ? ", with " + v.person(*e.with) : "");
    }

    // Release to record
    std::string operator()(const DeviceOff&) const { return "Catheter off"; }
    std::string operator()(const ValveDry& e) const { return fmt::format("Valve dry after {} s", e.seconds); }
    std::string operator()(const ValveNotDry& e) const { return "VALVE NOT DRY: " + e.action; }
    std::string operator()(const ReleaseLook& e) const {
        return fmt::format("Second look: position {}, bleeding {}", e.position_same ? "the same" : "CHANGED",
                           yes_no(e.bleeding));
    }
    std::string operator()(const CatheterComplete& e) const {
        return e.complete ? "Catheter complete" : "CATHETER NOT COMPLETE";
    }
    std::string operator()(const LeaveRoom&) const { return "Leaves the room"; }
    std::string operator()(const DeviceNotLeftIn& e) const {
        return fmt::format("Device not left in: {}{}; {} came out", reason(e.reason), quoted(e.words),
                           ml_words(e.out));
    }
    std::string operator()(const OfferHandover& e) const { return "Hand-over offered to " + v.person(e.to); }
    std::string operator()(const AcceptHandover& e) const {
        return fmt::format("Hand-over accepted, monitors on, identity by {}",
                           plain(name_of(e.identity_by.value_or(IdentityBy::patient))));
    }
    std::string operator()(const Score& e) const {
        return fmt::format("{} {}", e.scale == Scale::aldrete ? "Aldrete" : "PADSS", total_of(e));
    }
    std::string operator()(const Symptom& e) const {
        const auto blood = !e.blood ? "" : *e.blood ? ", WITH BLOOD" : ", no blood";
        return fmt::format("{}{}{}{}", plain(name_of(e.kind)),
                           e.value ? fmt::format(" {} of 10", *e.value) : "",
                           e.ml ? " " + ml_words(*e.ml) : "", blood);
    }
    std::string operator()(const Drink& e) const {
        return fmt::format("Drink {}{}", ml_words(e.ml), e.kept ? (*e.kept ? ", kept" : ", NOT kept") : "");
    }
    std::string operator()(const Discharged& e) const {
        auto words = fmt::format("Discharged: {}", plain(name_of(e.disposition))) +
                     (e.with ? ", with " + *e.with : "");
        words += quoted(e.words);
        return words + (e.unmet.empty() ? "" : "; NOT MET: " + joined(e.unmet));
    }
    std::string operator()(const Leaflet& e) const {
        return fmt::format("Leaflet given, {}, language {}", name_of(e.how), e.language);
    }
    std::string operator()(const Card& e) const { return fmt::format("Card given, {}", name_of(e.how)); }
    std::string operator()(const Abandon& e) const {
        return fmt::format("ABANDONED: {}{}; inside: device {}, {}, catheter {}", reason(e.reason),
                           quoted(e.words), yes_no(e.inside.device), ml_words(e.inside.ml),
                           yes_no(e.inside.catheter));
    }
    std::string operator()(const Signed& e) const {
        return fmt::format("Signed, {}: {}", name_of(e.part), e.meaning);
    }
    std::string operator()(const Sealed& e) const { return "Sealed as " + e.number; }
    std::string operator()(const Addendum& e) const { return "Addendum: " + e.text; }
    std::string operator()(const Attempt& e) const {
        return fmt::format("Attempt refused: {} ({})", plain(e.what), e.code) + quoted(e.raw);
    }
    std::string operator()(const HoldRaised& e) const {
        return fmt::format("HOLD ({}): {}", name_of(e.hold_class), e.say);
    }
    std::string operator()(const HoldEnded& e) const {
        return fmt::format("Hold {} ended: {}", e.code, name_of(e.how));
    }
    std::string operator()(const ItemOpened& e) const { return "Open item: " + e.say; }
    std::string operator()(const ItemClosed& e) const {
        return fmt::format("Open item closed: {}", plain(e.code));
    }

    // Of the desk, not of a case; here so that the list is whole.
    std::string operator()(const PersonAdded& e) const { return "Person added: " + e.name; }
    std::string operator()(const PinSet&) const { return "PIN set"; }
    std::string operator()(const PolicyAdopted& e) const { return "Policy adopted, " + e.hash; }
    std::string operator()(const Recall& e) const {
        return fmt::format("Recall of lot {}: {}", e.lot, e.note);
    }
    std::string operator()(const Rehearsed& e) const {
        return fmt::format("Backup {} restored for trial: {} events, {}", e.file, e.events,
                           e.same ? "all as here" : "NOT as here");
    }
    std::string operator()(const PersonLeft& e) const { return "Person left: " + e.id; }
    std::string operator()(const Badge& e) const {
        return (e.badge.empty() ? "Badge taken from: " : "Badge given to: ") + e.id;
    }
    std::string operator()(const KeyRotated& e) const { return "Signing key replaced, now " + e.new_key; }
    std::string operator()(const BackupPlanned& e) const {
        return e.folder.empty() ? std::string{"Backups by the kiosk ended"}
                                : "Backups by the kiosk go to " + e.folder;
    }
    std::string operator()(const ClockJump& e) const {
        return fmt::format("The clock moved by {} ms", e.by_ms);
    }
};

}  // namespace

std::string entry_words(const Event& event, const Source& v) { return std::visit(Tell{{v}}, event); }

}  // namespace brimline::record
