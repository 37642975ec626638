// What a line must fulfil beyond the types of its single fields: fields that exclude each other or go
// together.
#pragma once
#include "core/case/codec_fields.h"

namespace brimline::codec {

/// Sets the fault when the fields of a statement do not go together or leave a set that the command tables
/// list.
void check_whole(const Statement& says, Fault& fault);

}  // namespace brimline::codec
