// The parts of an entry of the register, each drawn by a file of its own. Not for other files than those of
// the entry.
#pragma once
#include "app/kiosk/screens/pages.h"
#include "core/desk/register.h"

namespace brimline::screens {

/// One frame of an entry.
struct EntryPage {
    touch::Glass& glass;
    const Scene& scene;
    const RegisterEntry& entry;
    RegisterDrafts& drafts;
    Asks& asks;

    [[nodiscard]] std::string say(std::string_view key,
                                  std::initializer_list<touch::Named> values = {}) const {
        return glass.words().say(key, values);
    }
    /// Says it of this entry.
    void tell(Statement says) const;
};

/// Column B and the corner while a call is logged, the entry is closed, or two people give up the search.
void draw_call(const EntryPage& page);
void draw_close_entry(const EntryPage& page);
void draw_lost(const EntryPage& page);
/// Back, at the foot of column B; nothing is entered.
void draw_entry_back(const EntryPage& page);
/// The words of a list's id, or the id.
[[nodiscard]] std::string item_words(const std::vector<ListItem>& list, const std::string& id);

}  // namespace brimline::screens
