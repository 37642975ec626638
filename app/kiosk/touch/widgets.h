// Every widget of the kiosk through one door, for the screens.
#pragma once

#include "app/kiosk/touch/action.h"
#include "app/kiosk/touch/button.h"
#include "app/kiosk/touch/card.h"
#include "app/kiosk/touch/frame_parts.h"
#include "app/kiosk/touch/gauge.h"
#include "app/kiosk/touch/glass.h"
#include "app/kiosk/touch/keyboard.h"
#include "app/kiosk/touch/keypad.h"
#include "app/kiosk/touch/layout.h"
#include "app/kiosk/touch/number_draft.h"
#include "app/kiosk/touch/pen.h"
#include "app/kiosk/touch/text.h"
#include "app/kiosk/touch/text_draft.h"
#include "app/kiosk/touch/two_line_record.h"
