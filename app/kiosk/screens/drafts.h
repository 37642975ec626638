// What is being typed on the glass, screen by screen. Nothing clinical lives here; leaving a sheet throws it
// away.
#pragma once
#include "app/kiosk/screens/drafts_arrival.h"
#include "app/kiosk/screens/drafts_desk.h"
#include "app/kiosk/screens/drafts_discharge.h"
#include "app/kiosk/screens/drafts_fill.h"
#include "app/kiosk/screens/drafts_list.h"
#include "app/kiosk/screens/drafts_look.h"
#include "app/kiosk/screens/drafts_override.h"
#include "app/kiosk/screens/drafts_pause.h"
#include "app/kiosk/screens/drafts_place.h"
#include "app/kiosk/screens/drafts_record.h"
#include "app/kiosk/screens/drafts_recovery.h"
#include "app/kiosk/screens/drafts_register.h"
#include "app/kiosk/screens/drafts_release.h"
#include "app/kiosk/screens/drafts_removal.h"
#include "app/kiosk/screens/drafts_sedation.h"
#include "app/kiosk/screens/drafts_size.h"
#include "app/kiosk/screens/drafts_vitals.h"

namespace brimline::screens {

struct Drafts {
    DeskDrafts desk;
    SedationDrafts sedation;
    ArrivalDrafts arrival;
    RoomDrafts room;
    OverrideDraft override_hold;
    LookDrafts look;
    RemovalDrafts removal;
    PlaceDrafts place;
    FillDrafts fill;
    SizeDrafts size;
    ReleaseDrafts release;
    RecoveryDrafts recovery;
    DischargeDrafts discharge;
    RecordDrafts record;
    AbandonDraft abandon;
    ListDrafts list;
    BookDraft book;
    StartDraft start;
    VitalsDrafts vitals;
    RegisterDrafts reg;
    PatientDraft patient;
    ReviewDraft reviews;
};

}  // namespace brimline::screens
