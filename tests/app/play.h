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

/// The pregnancy test's answer and its words are one entry in a script and two by taps; the words come last.
[[nodiscard]] Normal one_answer_of_the_test(Normal taps);

/// Takes the lines that begin so out; how many there were.
std::size_t without(Normal& taps, const std::string& begin);

class Play {
public:
    /// Opens the kiosk on a day at a clock, with what the scripts said up to then.
    Play(std::string case_name, const std::string& day, const std::string& clock,
         std::vector<std::string> scripts, bool long_words = false);

    /// That person takes the kiosk on a page of the case.
    void as(const std::string& person, screens::Page page);
    /// The name is tapped and the PIN typed; those taps are that person's.
    void sign_in(const std::string& person, const std::string& pin);
    /// From a case over its rail to the list, or from a desk page, to the sign-in.
    void sign_off();
    /// The same as `as`, by taps: the chip, then the rail where the chip did not bring the page.
    void go(const std::string& person, screens::Page page);
    /// Signs on the page of signing, reading what was said to its last page.
    void sign_here(const std::string& pin, const std::string& corner);
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
    /// A set with ratings alone.
    void quiet_round(const std::string& pad, int spo2, int rr, int nausea, int pain, int oxygen = 0);
    /// A dose in Recovery, from its own way.
    void give(const std::string& drug, const std::string& amount);
    /// One value of the newest set is changed; the pad of the sheet is left by Back.
    void change(const std::string& field, const std::string& value, const std::string& reason);
    /// Broken promises of all frames so far; a time of day half typed on a keyboard reads as a length.
    [[nodiscard]] Normal faults() const;
    /// Taps the key of owners until it shows this person.
    void owner(const std::string& name);
    /// Moves the case on the list by so many minutes (a multiple of five), with a reason in words.
    void move(const std::string& person, int minutes, const std::string& why);
    /// The monitor shows this time now, six digits; its page is opened from pause one.
    void monitor_clock(const std::string& digits);
    /// Band, aim and, where it is asked, the ceiling.
    void plan(const std::string& from, const std::string& to, const std::string& aim,
              const std::string& ceiling);
    /// A label typed from the pack on its sheet, the serial's last four read by another person.
    void label(const std::string& number, const std::string& expiry, const std::string& lot,
               const std::string& serial, const std::string& reader, const std::string& last_four);
    /// Syringes in at the pace of the day, the physician's foot after each where there is one.
    void push(int syringes, bool with_pedal = true, int apart_s = 21);
    /// Signs the case's part, or seals it too.
    void sign(const std::string& person, const std::string& pin, const std::string& corner);
    [[nodiscard]] const CaseState& state() const { return bed.state(name_); }

    KioskBed bed;

private:
    std::string name_, day_;
};

}  // namespace brimline::test
