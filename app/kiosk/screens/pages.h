// One function a page: what it shows follows from the scene, what was asked comes back.
#pragma once
#include "app/kiosk/screens/drafts.h"
#include "app/kiosk/screens/scene.h"

namespace brimline::screens {

/// The frame around every page of a case: strip, rail, chips, prompt bar. Adds what was asked to `asks`.
void draw_case_frame(touch::Glass& glass, const Scene& scene, Asks& asks);

[[nodiscard]] Asks draw_sign_in(touch::Glass& glass, const Scene& scene, DeskDrafts& drafts);
[[nodiscard]] Asks draw_day_list(touch::Glass& glass, const Scene& scene, DeskDrafts& drafts);
[[nodiscard]] Asks draw_arrival(touch::Glass& glass, const Scene& scene, ArrivalDrafts& drafts);
[[nodiscard]] Asks draw_enter_room(touch::Glass& glass, const Scene& scene, RoomDrafts& drafts);
[[nodiscard]] Asks draw_pause(touch::Glass& glass, const Scene& scene, PauseKind which, RoomDrafts& drafts);
/// The value pad as a page of its own, with the way to the trend and the start and end of sedation.
[[nodiscard]] Asks draw_sedation(touch::Glass& glass, const Scene& scene, VitalsDrafts& drafts);
[[nodiscard]] Asks draw_look(touch::Glass& glass, const Scene& scene, LookDrafts& drafts,
                             RemovalDrafts& removal);
/// The stages of a removal: the needle, what comes out, the balloon itself.
[[nodiscard]] Asks draw_puncture(touch::Glass& glass, const Scene& scene, RemovalDrafts& drafts);
[[nodiscard]] Asks draw_aspirate(touch::Glass& glass, const Scene& scene, RemovalDrafts& drafts,
                                 LookDrafts& look);
[[nodiscard]] Asks draw_out(touch::Glass& glass, const Scene& scene, RemovalDrafts& drafts);
/// What waits for the physician's eye: review cards and provisos, each answered here.
[[nodiscard]] Asks draw_reviews(touch::Glass& glass, const Scene& scene, ReviewDraft& draft);
/// All that the strip has no room for: names, numbers, every allergy.
[[nodiscard]] Asks draw_patient(touch::Glass& glass, const Scene& scene, PatientDraft& draft);
/// Every balloon with its next action, date and owner; one of them; whom a lot went into; a month; the
/// clinic.
[[nodiscard]] Asks draw_register(touch::Glass& glass, const Scene& scene, RegisterDrafts& drafts);
[[nodiscard]] Asks draw_entry(touch::Glass& glass, const Scene& scene, RegisterDrafts& drafts);
[[nodiscard]] Asks draw_lots(touch::Glass& glass, const Scene& scene, RegisterDrafts& drafts);
[[nodiscard]] Asks draw_month(touch::Glass& glass, const Scene& scene, RegisterDrafts& drafts);
[[nodiscard]] Asks draw_clinic(touch::Glass& glass, const Scene& scene, RegisterDrafts& drafts);
/// The airway secured by a tube, and free again.
[[nodiscard]] Asks draw_tube(touch::Glass& glass, const Scene& scene, SedationDrafts& drafts);
/// How far the monitor's clock is off this kiosk's.
[[nodiscard]] Asks draw_monitor_clock(touch::Glass& glass, const Scene& scene, RoomDrafts& drafts);
[[nodiscard]] Asks draw_place(touch::Glass& glass, const Scene& scene, PlaceDrafts& drafts);
[[nodiscard]] Asks draw_fill(touch::Glass& glass, const Scene& scene, FillDrafts& drafts);
[[nodiscard]] Asks draw_size(touch::Glass& glass, const Scene& scene, SizeDrafts& drafts);
[[nodiscard]] Asks draw_release(touch::Glass& glass, const Scene& scene, ReleaseDrafts& drafts);
/// The hand-over until it is accepted, then Recovery.
[[nodiscard]] Asks draw_recovery(touch::Glass& glass, const Scene& scene, RecoveryDrafts& drafts);
[[nodiscard]] Asks draw_discharge(touch::Glass& glass, const Scene& scene, DischargeDrafts& drafts,
                                  RecoveryDrafts& recovery);
[[nodiscard]] Asks draw_record(touch::Glass& glass, const Scene& scene, RecordDrafts& drafts);
[[nodiscard]] Asks draw_sign_cases(touch::Glass& glass, const Scene& scene, RecordDrafts& drafts);
[[nodiscard]] Asks draw_records(touch::Glass& glass, const Scene& scene, RecordDrafts& drafts);
[[nodiscard]] Asks draw_open_items(touch::Glass& glass, const Scene& scene, RecordDrafts& drafts);
/// Moving and cancelling, adding, starting without an entry; what the kiosk knows of itself.
[[nodiscard]] Asks draw_change_list(touch::Glass& glass, const Scene& scene, ListDrafts& drafts);
[[nodiscard]] Asks draw_book(touch::Glass& glass, const Scene& scene, BookDraft& draft);
/// Whose the entries are that were made while nobody was signed in.
[[nodiscard]] Asks draw_who_it_was(touch::Glass& glass, const Scene& scene);
/// What was entered here belongs to another patient of the day: to whom, and why.
[[nodiscard]] Asks draw_belongs_to(touch::Glass& glass, const Scene& scene, PatientDraft& draft);
[[nodiscard]] Asks draw_start_now(touch::Glass& glass, const Scene& scene, StartDraft& draft);
[[nodiscard]] Asks draw_kiosk_page(touch::Glass& glass, const Scene& scene);
/// The volume across the room; a tap goes back and never counts.
[[nodiscard]] Asks draw_far_view(touch::Glass& glass, const Scene& scene);
/// What is inside the patient now, over any page of a case.
[[nodiscard]] Asks draw_abandon(touch::Glass& glass, const Scene& scene, AbandonDraft& draft);
/// Up to six patients in recovery, the next due first.
[[nodiscard]] Asks draw_bays(touch::Glass& glass, const Scene& scene);
/// Five boxes and strips of one-tap keys, over any page of a case.
[[nodiscard]] Asks draw_vitals(touch::Glass& glass, const Scene& scene, VitalsDrafts& drafts);
[[nodiscard]] Asks draw_trend(touch::Glass& glass, const Scene& scene);
/// A dose or an infusion: drug, amount, when.
[[nodiscard]] Asks draw_dose(touch::Glass& glass, const Scene& scene, DoseDraft& draft);
[[nodiscard]] Asks draw_airway(touch::Glass& glass, const Scene& scene, AirwayDraft& draft);
[[nodiscard]] Asks draw_emergency(touch::Glass& glass, const Scene& scene, EmergencyDraft& draft);
[[nodiscard]] Asks draw_change_value(touch::Glass& glass, const Scene& scene, ChangeDraft& draft);
[[nodiscard]] Asks draw_hand_role(touch::Glass& glass, const Scene& scene);
/// Gate 1 asks once before sedation starts.
[[nodiscard]] Asks draw_gate_identity(touch::Glass& glass, const Scene& scene, SedationDrafts& drafts);
[[nodiscard]] Asks draw_override(touch::Glass& glass, const Scene& scene, OverrideDraft& draft);
/// The stage sheet: every page that exists, and the way back to the list.
[[nodiscard]] Asks draw_stages(touch::Glass& glass, const Scene& scene);

}  // namespace brimline::screens
