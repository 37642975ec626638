// A person's fingers through a case, in the words of the screens, and what a case said in normal form:
// without times, ticks, command ids, hashes and marks (10-decisions G21).
#pragma once
#include "tests/app/kiosk_bed.h"

namespace brimline::test {

using Normal = std::vector<std::string>;

/// The entries of a case from the first one at or after `from`, one line each: kind, who, whose word, fields.
/// What was said of other entries and of days is left out.
[[nodiscard]] Normal normal_form(const CaseState& state, Instant from);

/// What only one of two has, "taps: ..." and "script: ..."; when all is in both, the first that stands
/// elsewhere.
[[nodiscard]] Normal differences(const Normal& taps, const Normal& script);

class Play {
public:
    /// Opens the kiosk on a day at a clock, with what the scripts said up to then.
    Play(std::string case_name, const std::string& day, const std::string& clock,
         std::vector<std::string> scripts, bool long_words = false);

    /// That person takes the kiosk on a page of the case.
    void as(const std::string& person, screens::Page page);
    /// The clock of the day, without drawing the seconds between.
    void until(const std::string& clock);
    void tap(const std::vector<std::string>& names) { bed.tap_all(names); }
    void type(const std::string& text);

    /// A set on the value pad; -1 leaves a part out. It opens over any page that has no pad of its own.
    void set(const std::string& pad, int spo2, int rr, int depth, int oxygen, int etco2 = -1);
    void dose(const std::string& drug, const std::string& amount, bool asked = false);
    void intake(const std::string& kind, int days_ago, const std::string& clock);
    /// ASA, Mallampati, the sleep questions and the neck; no trouble before, no CPAP.
    void airway(int asa, int mallampati, bool snores, const std::string& neck);
    /// Everybody of the room is tapped who is not there yet, then `said` checks in the corner.
    void pause(const std::vector<std::string>& people, int first, int last);
    /// A set, a score and ratings in Recovery; pressure and saturation are proposed from the set.
    void recovery_round(const std::string& pad, int spo2, int rr, int oxygen,
                        const std::vector<std::string>& parts, int nausea, int pain);
    /// Signs the case's part, or seals it too.
    void sign(const std::string& person, const std::string& pin, const std::string& corner);
    [[nodiscard]] const CaseState& state() const { return bed.state(name_); }

    KioskBed bed;

private:
    std::string name_, day_;
};

}  // namespace brimline::test
