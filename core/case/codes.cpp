// The table of codes. A new refusal, hold, item or prompt gets its line here first.
#include "core/case/codes.h"

#include <array>
#include <cstdio>
#include <cstdlib>

namespace brimline {
namespace {

constexpr std::array table{
    // Refusals
    Code{"role-may-not", "This role may not enter this.", "Let the person whose role it is enter it."},
    Code{"pin-wrong", "The PIN is missing or not right.", "Type the PIN again."},
    Code{"pin-locked", "The PIN is locked after wrong tries.",
         "Wait until the lock ends; rescue entries need no PIN."},
    Code{"read-only", "Nothing is recorded: the journal can only be read.",
         "Use paper; restore a backup, or call for help."},
    Code{"case-sealed", "The case is sealed.", "Write an addendum."},
    Code{"case-not-sealed", "The case is not sealed yet.", "Enter it as it is; addenda come after the seal."},
    Code{"no-such-case", "There is no case of this name.", "Book the case, or check its name."},
    Code{"case-exists", "There is a case of this name already.", "Choose another name."},
    Code{"nobody-signed-in", "Nobody is signed in.",
         "Sign in; Start now, vital signs, doses and emergencies are recorded without."},
    Code{"last-who-may", "Nobody else may add people.", "Add a coordinator or an installer first."},
    Code{"no-such-person", "There is no person of this id.", "Check the id, or add the person."},
    Code{"person-exists", "There is a person of this id already.", "Choose another id."},
    Code{"no-such-entry", "There is no such entry in this case.", "Check the number."},
    Code{"not-on-list", "This is not on the list.", "Choose from the list."},
    Code{"out-of-range", "This value cannot be.", "Check the number and its unit."},
    Code{"nothing-to-draw", "More would come out than is in.", "Check the volume."},
    Code{"same-person", "Two different people are needed.", "Let another person do it."},
    Code{"case-shut", "The case is shut: the person in the room does not match.",
         "Check who is in the room; rescue entries are still recorded."},
    Code{"hold-has-no-override", "This hold cannot be overridden.", "End its cause, or stop here."},
    Code{"no-such-hold", "No such hold stands.", "Check its code."},
    Code{"label-check-digit", "The check digit does not fit.", "Type the label, or scan it again."},
    Code{"label-junk", "This is not a device label.", "Scan the device's own label, or type it."},
    Code{"part-unsigned", "All three parts must be signed before the seal.", "Sign the missing part."},
    Code{"item-open", "An open item must be closed before the seal.", "Close it, then seal."},
    Code{"not-a-removal", "This belongs to a removal, and this case is none.", "Choose the removal's case."},
    Code{"entry-closed", "This entry of the register is closed already.", "Look at it with --all."},
    Code{"entry-of-another", "This entry of the register belongs to another patient.",
         "Check the patient and the entry."},
    Code{"lost-not-allowed", "Lost to follow-up is not allowed yet.", "Try again as the register says."},
    Code{"two-people-needed", "After the seal two people say it, each with a PIN.",
         "Name the second person and both PINs."},
    Code{"badge-in-use", "This badge cannot be given.", "Scan another badge."},
    Code{"not-in-practice", "Practice knows only its own patients.", "Use a number that begins with P-."},
    // Holds
    Code{"fasting-clear-fluid", "Clear fluid: the fast is too short.", "Wait, or the physician decides."},
    Code{"fasting-milk", "Milk or full liquids: the fast is too short.", "Wait, or the physician decides."},
    Code{"fasting-light-meal", "Light meal: the fast is too short.", "Wait, or the physician decides."},
    Code{"fasting-fatty-meal", "Meal: the fast is too short.", "Wait, or the physician decides."},
    Code{"fasting-glp1", "Solids too late beside a drug that slows the stomach.",
         "Wait, or the physician decides."},
    Code{"fasting-not-known", "The fast is not known.",
         "The physician decides, with the airway plan in words."},
    Code{"removal-prep", "The preparation for a removal is too short.", "Wait, or the physician decides."},
    Code{"medicine-window",
         "A medicine that thins the blood or harms the stomach was taken within the window.",
         "The physician decides."},
    Code{"screen", "A contraindication was answered yes.", "The physician decides."},
    Code{"consent-missing", "Consent is missing.", "Ask for consent."},
    Code{"identity-missing", "Two identifiers were not stated.", "Ask for two identifiers."},
    Code{"identity-mismatch", "Birth day and month do not match.", "Check who is in the room."},
    Code{"pause", "A check of the pause was answered no.", "Settle it, then answer yes."},
    Code{"gate-identity", "Sedation began before identity and consent.", "Record identity and consent."},
    Code{"gate-go", "The device was opened before go.", "Record go when it is said."},
    Code{"gate-position", "Filling began before the position was seen.",
         "Record the position when it is seen."},
    Code{"gate-read-back", "The catheter came off before the volume was agreed.", "Read the volume back."},
    Code{"look-stopping-finding", "A finding that stops was seen.", "The physician decides: go, or no-go."},
    Code{"label-expired", "The device is past its expiry.", "Take another device."},
    Code{"label-recall", "The lot is on the recall list.", "Take another device."},
    Code{"resistance", "Filling met resistance.", "See the position again."},
    Code{"position-lost", "The position was lost.", "See the position again."},
    Code{"ceiling-passed", "The volume is above the ceiling.", "Draw back, or the physician says it stays."},
    Code{"count-differs", "The counts differ.", "Correct the count, or count again."},
    Code{"matter-differs", "The matter does not fit the count.", "Correct the count, or look again."},
    Code{"sizing-not-met", "Something at sizing is not as it should be.", "Look again, then say it again."},
    Code{"valve-not-dry", "The valve is not dry.", "Watch, look again, or remove."},
    Code{"catheter-incomplete", "The catheter is not complete.", "Find the missing part."},
    Code{"food-in-stomach", "Food is in the stomach.", "Clear it and look again, or the physician decides."},
    Code{"balloon-incomplete", "The balloon is not complete.", "Find the missing part."},
    Code{"dye-g6pd", "Methylene blue is not for a patient with G6PD deficiency or in pregnancy.",
         "Use no dye."},
    // Questions
    Code{"double-tap", "Second syringe, or the same one twice?", "Answer second or same."},
    Code{"implausible", "This value is unusual.", "Check it; send it again with sure if it is right."},
    // Prompts
    Code{"vitals-due", "Vital signs are due.", ""},
    Code{"vitals-overdue", "Vital signs are overdue.", ""},
    Code{"count-check-due", "Count check is due.", ""},
    Code{"ceiling-near", "The next syringe reaches the ceiling.", ""},
    Code{"counts-differ", "The counts differ.", ""},
    Code{"not-yet-saved", "Not yet saved. Write it on paper.", ""},
    Code{"score-due", "A score is due.", ""},
    Code{"etco2-missing", "No EtCO2 is recorded.", ""},
    Code{"item-due", "An open item is due.", ""},
    Code{"alert-value", "A value is in its alert band.", ""},
};

}  // namespace

std::span<const Code> all_codes() { return table; }

const Code& code_entry(std::string_view code) {
    for (const auto& entry : table) {
        if (entry.code == code) {
            return entry;
        }
    }
    std::fputs("a code without an entry in the table\n", stderr);
    std::abort();
}

Refusal coded(std::string_view code) {
    const auto& entry = code_entry(code);
    return {std::string{entry.code}, std::string{entry.say}, std::string{entry.next}};
}

Refusal coded(std::string_view code, std::string say) {
    auto refusal = coded(code);
    refusal.say = std::move(say);
    return refusal;
}

}  // namespace brimline
