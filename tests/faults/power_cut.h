// What a power cut may leave of a recorded run: per file all that was synced, and per 512-byte sector touched
// since any of its versions; the length old or new; a file whose name was never synced there or not; sectors
// torn at a byte.
#pragma once
#include <cstdint>
#include <functional>
#include <random>
#include <vector>

#include "tests/faults/recorded_disk.h"

namespace brimline::store::faults {

/// How the disk is modelled. The lies are controls: with any of them a campaign must find lost commands.
struct Model {
    bool torn{false};  // sectors may also be cut at a byte
    bool log_never_syncs{
        false};  // a sync of the log does nothing (as with synchronous=NORMAL between checkpoints)
    bool nothing_syncs{false};  // no sync does anything (as with synchronous=OFF)
};

/// One image, how many commands were acknowledged by then.
using Visit = std::function<void(const Image& image, int acknowledged)>;

/// Calls `visit` for the images after each sync, removal and acknowledgement. `base` is what lay on the disk
/// before. Of every point all combinations when they are few, else prefixes, each piece lost, each write
/// lost, each write alone, and then as many random ones as `random`; of these every `stride`-th, beginning at
/// a chance place.
void cut_everywhere(const Image& base, const std::vector<Step>& steps, const Model& model, int random,
                    int stride, std::mt19937_64& chance, const Visit& visit);

}  // namespace brimline::store::faults
