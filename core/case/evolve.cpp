// The fold: one more event, the next state. A corrected entry takes its new value and everything after it is
// folded again, so that no total, hold or due time can keep an old number. Nothing here refuses; it happened.
#include <algorithm>

#include "core/case/codec.h"
#include "core/case/figures.h"

namespace brimline {
namespace {

template <class T>
Noted<T> noted(const Stamp& stamp, const T& e) {
    return {stamp, e};
}

/// Inserts by the moment at which it took place; equal moments keep the order of entry.
template <class T>
void insert_by_time(std::vector<Noted<T>>& list, Noted<T> one) {
    const auto later = std::upper_bound(list.begin(), list.end(), one.stamp.happened,
                                        [](Instant t, const Noted<T>& n) { return t < n.stamp.happened; });
    list.insert(later, std::move(one));
}

/// Filling runs from the passed balloon or the first delivery until the device is off, out, or its volume was
/// agreed; the pedal's own trial at pause two comes before.
bool fill_under_way(const DeviceBlock& block) {
    const bool placed = block.passed || block.position_seen || block.ready;
    const bool begun = placed || !block.deliveries.empty() || !block.questions.empty();
    return begun && !block.off && !block.not_left_in && !block.read_back_stands;
}

void touch_fill(DeviceBlock& block, const Stamp& stamp, bool is_tap) {
    if (!block.position_seen) {
        block.position_crossed = true;
    }
    block.read_back_agreed = false;
    block.read_back_stands = false;
    if (is_tap) {
        block.last_tap = stamp;
    }
}

void deliver(CaseState& s, const Stamp& stamp, Delivery::Kind kind, Millilitres ml, int syringes) {
    auto& block = s.device();
    const bool stopped = !block.stops.empty() && !block.stops.back().until;
    const bool is_tap = kind == Delivery::Kind::syringe || kind == Delivery::Kind::part;
    touch_fill(block, stamp, is_tap);
    Delivery one{kind, stamp, ml, syringes, stopped};
    const auto later = std::upper_bound(block.deliveries.begin(), block.deliveries.end(), stamp.happened,
                                        [](Instant t, const Delivery& d) { return t < d.stamp.happened; });
    block.deliveries.insert(later, std::move(one));
}

void put(std::optional<std::string>& into, const std::optional<std::string>& value) {
    if (value) {
        into = value;
    }
}

template <class T, class... Any>
constexpr bool is_any_of = (std::is_same_v<T, Any> || ...);

// One overload an event. There is no catch-all: a new event does not compile until it is answered here.
struct Fold {
    CaseState& s;
    const Stamp& stamp;

    void operator()(const Booked& e) const {
        s.id = e.id;
        s.name = e.name;
        s.kind = e.kind;
        s.patient = e.patient;
        s.planned = e.planned;
        s.room = e.room;
        s.entry = e.entry;
        s.started_now = e.started_now;
        s.practised = e.practised;
    }
    void operator()(const WeightKnown& e) const { s.weight_known = noted(stamp, e); }
    void operator()(const Move& e) const {
        s.moves.push_back(noted(stamp, e));
        s.planned = e.planned ? e.planned : s.planned;
        s.position = e.position ? e.position : s.position;
        put(s.room, e.room);
    }
    void operator()(const Cancel& e) const { s.cancelled = noted(stamp, e); }
    void operator()(const PatientNow& e) const {
        put(s.patient.number, e.to.number);
        put(s.patient.family_name, e.to.family_name);
        put(s.patient.given_name, e.to.given_name);
        put(s.patient.phone, e.to.phone);
        put(s.patient.language, e.to.language);
        s.patient.born = e.to.born ? e.to.born : s.patient.born;
        s.patient.sex_at_birth = e.to.sex_at_birth ? e.to.sex_at_birth : s.patient.sex_at_birth;
        s.patient_changes.push_back(noted(stamp, e));
    }
    void operator()(const EntriesMoved& e) const { s.belongs_to.push_back(noted(stamp, e)); }
    void operator()(const EntriesReceived& e) const { s.received.push_back(noted(stamp, e)); }
    void operator()(const EnteredRoom& e) const {
        s.entered.push_back(noted(stamp, e));
        s.room = e.room;
    }
    void operator()(const Identity& e) const { s.identity = noted(stamp, e); }
    void operator()(const Consent& e) const { s.consent = noted(stamp, e); }
    void operator()(const Allergies& e) const { s.allergies = noted(stamp, e); }
    void operator()(const Measure& e) const { s.measure = noted(stamp, e); }
    void operator()(const Intake& e) const { s.intakes.push_back(noted(stamp, e)); }
    void operator()(const Medicine& e) const { s.medicines.push_back(noted(stamp, e)); }
    void operator()(const Answer& e) const { s.answers[e.check] = noted(stamp, e); }
    void operator()(const Airway& e) const { s.airway = noted(stamp, e); }
    void operator()(const Escort& e) const { s.escort = noted(stamp, e); }
    void operator()(const Unchanged& e) const { s.unchanged.push_back(noted(stamp, e)); }
    void operator()(const Vitals& e) const { insert_by_time(s.vitals, noted(stamp, e)); }
    void operator()(const Pause& e) const {
        const bool fresh = s.pauses.find(e.which) == s.pauses.end();
        auto& held = s.pauses[e.which];
        if (fresh) {
            held.first = stamp;
        }
        held.last = stamp;
        for (const auto& person : e.present) {
            if (std::find(held.present.begin(), held.present.end(), person) == held.present.end()) {
                held.present.push_back(person);
            }
        }
        for (const auto& [check, value] : e.answers) {
            held.answers[check] = value;
        }
    }
    void operator()(const MonitorClock& e) const { s.monitor_clock = noted(stamp, e); }
    void operator()(const Overridden& e) const {
        for (auto hold = s.holds.rbegin(); hold != s.holds.rend(); ++hold) {
            if (hold->code != e.hold) {
                continue;
            }
            hold->overrides.push_back(noted(stamp, e));
            if (e.ends && !hold->ended) {
                hold->ended = stamp.happened;
                hold->ended_how = HoldEnd::overridden;
            }
            break;
        }
        if (e.proviso && e.proviso_id) {
            s.provisos.push_back({*e.proviso_id, e.hold, *e.proviso, std::nullopt});
        }
    }
    void operator()(const AnswerProviso& e) const {
        for (auto& proviso : s.provisos) {
            if (proviso.id == e.proviso) {
                proviso.answer = noted(stamp, e);
            }
        }
    }
    void operator()(const StartSedation&) const {
        if (!s.identity_settled()) {
            s.identity_crossed = true;
        }
        s.sedation_start = s.sedation_start ? s.sedation_start : stamp;
        s.sedation_end.reset();
    }
    void operator()(const EndSedation&) const { s.sedation_end = stamp; }
    void operator()(const Dose& e) const { insert_by_time(s.doses, noted(stamp, e)); }
    void operator()(const InfusionStart& e) const { s.infusions.push_back({noted(stamp, e), std::nullopt}); }
    void operator()(const InfusionStop& e) const {
        for (auto run = s.infusions.rbegin(); run != s.infusions.rend(); ++run) {
            if (run->start.is.drug == e.drug && !run->stop) {
                run->stop = stamp;
                return;
            }
        }
    }
    void operator()(const Depth& e) const { insert_by_time(s.depths, noted(stamp, e)); }
    void operator()(const Oxygen& e) const { insert_by_time(s.oxygen, noted(stamp, e)); }
    void operator()(const AirwayEvent&) const { s.airway_events.push_back({stamp, {}, {}, {}, {}}); }
    void operator()(const AirwayEventEnd& e) const {
        for (auto& episode : s.airway_events) {
            if (episode.start.seq != e.event.seq) {
                continue;
            }
            episode.end = episode.end ? episode.end : stamp.happened;
            episode.lowest_spo2 = e.lowest_spo2 ? e.lowest_spo2 : episode.lowest_spo2;
            if (e.action) {
                episode.actions.insert(episode.actions.end(), e.action->list.begin(), e.action->list.end());
            }
            if (e.lowest_spo2 || e.action) {
                episode.values = stamp;
            }
        }
    }
    void operator()(const AirwaySecured& e) const { s.secured = noted(stamp, e); }
    void operator()(const AirwayFreed&) const { s.freed = stamp; }
    void operator()(const Emergency&) const { s.emergencies.push_back({stamp, std::nullopt}); }
    void operator()(const EmergencyEnd& e) const {
        for (auto episode = s.emergencies.rbegin(); episode != s.emergencies.rend(); ++episode) {
            if (!episode->end) {
                episode->end = noted(stamp, e);
                return;
            }
        }
    }
    void operator()(const HelpCalled&) const { s.help_called.push_back(stamp); }
    void operator()(const HandOverRole& e) const { s.role_offered[e.role] = e.to; }
    void operator()(const AcceptRole& e) const {
        s.role_holder[e.role] = stamp.by;
        s.role_offered.erase(e.role);
    }
    void operator()(const WhoItWas&) const {}  // told by history
    void operator()(const Seen& e) const { s.seen.push_back(e.item); }
    void operator()(const ScopeIn&) const { s.scope_in = stamp; }
    void operator()(const ScopeOut&) const { s.scope_out = stamp; }
    void operator()(const Finding& e) const { s.findings.push_back(noted(stamp, e)); }
    void operator()(const NoFindings&) const { s.no_findings = stamp; }
    void operator()(const Sample& e) const { s.samples.push_back(noted(stamp, e)); }
    void operator()(const Go&) const { s.go = s.go ? s.go : stamp; }
    void operator()(const NoGo& e) const {
        s.no_go = noted(stamp, e);
        s.go.reset();  // taken back; a later go is a new one
    }

    void operator()(const DeviceOpened& e) const {
        if (!s.go) {
            s.go_crossed = true;
        }
        if (e.again && s.device().label) {
            auto& label = s.device().label->is;
            put(label.gtin, e.gtin);
            put(label.lot, e.lot);
            put(label.serial, e.serial);
            label.expiry = e.expiry ? e.expiry : label.expiry;
            label.how = label.how == LabelHow::unreadable ? e.how : label.how;
            label.elements.insert(label.elements.end(), e.elements.begin(), e.elements.end());
            return;
        }
        if (s.device().label || s.device().not_left_in) {
            s.devices.emplace_back();
        }
        s.device().label = noted(stamp, e);
    }
    void operator()(const Plan& e) const { s.plan = noted(stamp, e); }
    void operator()(const Saline& e) const { s.device().saline = noted(stamp, e); }
    void operator()(const SalineAdded& e) const { s.device().saline_added.push_back(noted(stamp, e)); }
    void operator()(const Dye& e) const { s.device().dye = noted(stamp, e); }
    void operator()(const BalloonPassed&) const {
        s.device().passed = stamp;
        if (!s.go) {
            s.go_crossed = true;
        }
    }
    void operator()(const PositionSeen&) const { s.device().position_seen = stamp; }
    void operator()(const ReadyToFill&) const { s.device().ready = stamp; }
    void operator()(const SyringeCounted& e) const { deliver(s, stamp, Delivery::Kind::syringe, e.ml, 1); }
    void operator()(const PartSyringe& e) const { deliver(s, stamp, Delivery::Kind::part, e.ml, 1); }
    void operator()(const DrawBack& e) const { deliver(s, stamp, Delivery::Kind::drawn_back, -e.ml, 0); }
    void operator()(const SecondCount&) const {
        auto& where = fill_under_way(s.device()) ? s.device().presses : s.presses_outside;
        where.push_back(stamp);
    }
    void operator()(const DoubleTapAsked& e) const {
        touch_fill(s.device(), stamp, true);
        s.device().questions.push_back({e.question, e.ml, stamp, std::nullopt});
    }
    void operator()(const DoubleTapWas& e) const {
        for (auto& question : s.device().questions) {
            if (question.id != e.question) {
                continue;
            }
            question.answer = e.answer;
            if (e.answer == SecondOrSame::second) {
                const auto last_tap = s.device().last_tap;
                deliver(s, question.stamp, Delivery::Kind::syringe, question.ml, 1);
                s.device().last_tap = last_tap;
            }
        }
    }
    void operator()(const StopFilling& e) const {
        s.device().stops.push_back({stamp, e.reason, std::nullopt});
    }
    void operator()(const WentOn& e) const {
        auto& stops = s.device().stops;
        Stamp meanwhile = stamp;
        if (!stops.empty() && !stops.back().until) {
            stops.back().until = stamp.happened;
            meanwhile.happened = stops.back().stamp.happened;
        }
        if (e.syringes != 0 || e.ml != Millilitres{}) {
            deliver(s, meanwhile, Delivery::Kind::meanwhile, e.ml, e.syringes);
        }
    }
    void operator()(const CountsCompared& e) const { s.device().checks.push_back(noted(stamp, e)); }
    void operator()(const Matter& e) const { s.device().matters.push_back(noted(stamp, e)); }
    void operator()(const Sizing& e) const { s.device().sizings.push_back(noted(stamp, e)); }
    void operator()(const ReadBackSaid& e) const {
        s.device().read_backs.push_back(noted(stamp, e));
        s.device().read_back_agreed = e.agreed;
        s.device().read_back_stands = e.agreed && e.counted == running_volume(s.device());
    }
    void operator()(const Explain& e) const { s.device().explained.push_back(noted(stamp, e)); }
    void operator()(const Corrected& e) const { s.corrections.push_back({stamp, e}); }
    void operator()(const CountCorrected& e) const {
        s.count_corrections.push_back(noted(stamp, e));
        deliver(s, stamp, Delivery::Kind::correction, e.ml, e.syringes);
    }
    void operator()(const DeviceOff&) const {
        if (!s.device().read_back_agreed) {
            s.device().read_back_crossed = true;
        }
        s.device().off = stamp;
    }
    void operator()(const ValveDry& e) const { s.valve_dry.push_back(noted(stamp, e)); }
    void operator()(const ValveNotDry& e) const { s.valve_not_dry.push_back(noted(stamp, e)); }
    void operator()(const ReleaseLook& e) const { s.release_look = noted(stamp, e); }
    void operator()(const CatheterComplete& e) const { s.catheter = noted(stamp, e); }
    void operator()(const LeaveRoom&) const { s.left_room = stamp; }
    void operator()(const DeviceNotLeftIn& e) const { s.device().not_left_in = noted(stamp, e); }
    void operator()(const OfferHandover& e) const { s.offered = noted(stamp, e); }
    void operator()(const AcceptHandover& e) const { s.accepted = noted(stamp, e); }
    void operator()(const Score& e) const { insert_by_time(s.scores, noted(stamp, e)); }
    void operator()(const Symptom& e) const { insert_by_time(s.symptoms, noted(stamp, e)); }
    void operator()(const Drink& e) const { insert_by_time(s.drinks, noted(stamp, e)); }
    void operator()(const Discharged& e) const { s.discharged = noted(stamp, e); }
    void operator()(const Leaflet& e) const { s.leaflet = noted(stamp, e); }
    void operator()(const Card& e) const { s.card = noted(stamp, e); }
    void operator()(const Abandon& e) const { s.abandoned = noted(stamp, e); }
    void operator()(const Signed& e) const { s.signatures[e.part] = stamp; }
    void operator()(const Sealed& e) const { s.sealed = noted(stamp, e); }
    void operator()(const Addendum& e) const { s.addenda.push_back({stamp, e.text}); }
    void operator()(const Flag& e) const { s.flags.push_back(noted(stamp, e)); }
    void operator()(const Call& e) const { s.calls.push_back(noted(stamp, e)); }
    void operator()(const EntryClosed& e) const { s.closings.push_back(noted(stamp, e)); }
    void operator()(const LostAgreed& e) const { s.lost.push_back(noted(stamp, e)); }
    void operator()(const BalloonSeen& e) const { s.balloon_seen.push_back(noted(stamp, e)); }
    void operator()(const Canister& e) const { insert_by_time(s.canister, noted(stamp, e)); }
    void operator()(const Puncture&) const { s.puncture = s.puncture ? s.puncture : stamp; }
    void operator()(const Aspirated& e) const { s.aspirated.push_back(noted(stamp, e)); }
    void operator()(const Gas&) const { s.gas.push_back(stamp); }
    void operator()(const Fluid& e) const { s.fluid.push_back(noted(stamp, e)); }
    void operator()(const SeenEmpty&) const { s.seen_empty = stamp; }
    void operator()(const Grasp&) const { s.grasp = stamp; }
    void operator()(const Out& e) const { s.out = noted(stamp, e); }
    void operator()(const SecondLook& e) const { s.second_looks.push_back(noted(stamp, e)); }
    void operator()(const PlacedElsewhere& e) const { s.elsewhere = noted(stamp, e); }
    void operator()(const Attempt& e) const { s.attempts.push_back(noted(stamp, e)); }
    void operator()(const HoldRaised& e) const {
        s.holds.push_back(
            {e.code, e.hold_class, e.say, stamp.happened, e.until, std::nullopt, std::nullopt, {}});
    }
    void operator()(const HoldEnded& e) const {
        for (auto& hold : s.holds) {
            if (hold.code == e.code && !hold.ended) {
                hold.ended = stamp.happened;
                hold.ended_how = e.how;
            }
        }
    }
    void operator()(const ItemOpened& e) const {
        s.items.push_back({e.code, e.say, e.owner, e.due, stamp.happened, std::nullopt});
    }
    void operator()(const ItemClosed& e) const {
        for (auto& item : s.items) {
            if (item.code == e.code && !item.closed) {
                item.closed = stamp.happened;
            }
        }
    }
    // What belongs to the kiosk, not to a case, changes nothing here.
    template <class E>
    requires is_any_of<E, PersonAdded, PinSet, PolicyAdopted, Recall, ClockJump, Rehearsed, PersonLeft, Badge,
                       KeyRotated, BackupPlanned>
    void operator()(const E&) const {}
};

void apply(CaseState& state, const Recorded& recorded) {
    std::visit(Fold{state, recorded.stamp}, recorded.event);
}

void refold(CaseState& state, std::vector<Kept> history) {
    const auto chain_length = state.chain_length;
    state = CaseState{};
    state.chain_length = chain_length;
    for (const auto& kept : history) {
        if (!kept.withdrawn) {
            apply(state, kept.now);
        }
    }
    state.history = std::move(history);
}

/// A block of entries that were made in another case: from here on they stand here, with their own stamps.
void receive(CaseState& state, const Recorded& recorded, const EntriesReceived& received) {
    apply(state, recorded);
    // Text that evolve itself wrote when the block was moved; what cannot be read is told by verify.
    const auto entries = read_entries(received.entries);
    if (!entries) {
        return;
    }
    for (const auto& entry : *entries) {
        state.history.push_back({entry, entry, false});
        apply(state, entry);
    }
}

}  // namespace

const Hold* CaseState::standing(std::string_view code) const {
    const auto found = std::find_if(holds.begin(), holds.end(),
                                    [&](const Hold& hold) { return hold.code == code && hold.stands(); });
    return found == holds.end() ? nullptr : &*found;
}

const Kept* CaseState::kept(std::int64_t seq) const {
    const auto found = std::find_if(history.begin(), history.end(),
                                    [&](const Kept& one) { return one.first.stamp.seq == seq; });
    return found == history.end() ? nullptr : &*found;
}

bool CaseState::consent_settled() const {
    if (!consent) {
        return false;
    }
    if (consent->is.form != ConsentForm::not_possible) {
        return consent->is.form.has_value() || consent->is.is_signed.value_or(false);
    }
    return std::any_of(holds.begin(), holds.end(), [](const Hold& hold) {
        return hold.code == "consent-missing" && hold.ended_how == HoldEnd::overridden;
    });
}

bool CaseState::identity_settled() const {
    return identity && identity->is.identifiers.size() >= 2 && consent_settled();
}

bool CaseState::has_open(std::string_view item) const {
    return std::any_of(items.begin(), items.end(),
                       [&](const OpenItem& open) { return open.code == item && !open.closed; });
}

bool moves_with_the_block(const Event& event) {
    return std::visit(
        [](const auto& e) {
            using T = std::decay_t<decltype(e)>;
            constexpr bool of_the_list = is_any_of<T, Booked, Move, Cancel, PatientNow, Attempt>;
            constexpr bool concluded = is_any_of<T, HoldRaised, HoldEnded, ItemOpened, ItemClosed, Overridden,
                                                 AnswerProviso, Seen, Signed, Sealed>;
            constexpr bool of_the_register =
                is_any_of<T, Call, Flag, EntryClosed, LostAgreed, EntriesMoved, EntriesReceived>;
            return !of_the_list && !concluded && !of_the_register;
        },
        event);
}

void evolve(CaseState& state, const Recorded& recorded) {
    ++state.chain_length;
    state.history.push_back({recorded, recorded, false});
    if (const auto* received = std::get_if<EntriesReceived>(&recorded.event)) {
        return receive(state, recorded, *received);
    }
    const auto* moved = std::get_if<EntriesMoved>(&recorded.event);
    if (moved != nullptr && !moved->whole) {
        auto history = std::move(state.history);
        for (auto& kept : history) {
            kept.withdrawn = kept.withdrawn || moves_with_the_block(kept.first.event);
        }
        return refold(state, std::move(history));
    }
    const auto* corrected = std::get_if<Corrected>(&recorded.event);
    if (corrected == nullptr) {
        return apply(state, recorded);
    }
    auto history = std::move(state.history);
    for (auto& kept : history) {
        if (kept.first.stamp.seq != corrected->entry) {
            continue;
        }
        kept.withdrawn = corrected->withdrawn;
        kept.now.stamp.happened = corrected->happened_now.value_or(kept.now.stamp.happened);
        // Checked when the correction was decided, so it fits; an empty object changes nothing.
        if (const auto changes = parse_json(corrected->after)) {
            if (auto event = with_fields(kept.now.event, *changes)) {
                kept.now.event = std::move(*event);
            }
        }
    }
    refold(state, std::move(history));
}

CaseState fold(const std::vector<Recorded>& events) {
    CaseState state;
    for (const auto& recorded : events) {
        evolve(state, recorded);
    }
    return state;
}

}  // namespace brimline
