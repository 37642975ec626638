// Putting the balloon card together.
#include "core/record/balloon_card.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "core/desk/register.h"
#include "core/label/gtin.h"
#include "core/record/leaflet.h"
#include "core/record/text_layout.h"
#include "core/record/text_words.h"
#include "core/rules/card.h"

namespace brimline {
namespace {

constexpr std::string_view blank = "–";

/// What may stand in a text field of an element string. Source: interchange.md 2.2 rule 4.
bool fits_element(std::string_view text) {
    constexpr std::string_view marks = "!\"%&'()*+,-./_:;<=>?";
    constexpr std::size_t longest = 20;
    return !text.empty() && text.size() <= longest && std::all_of(text.begin(), text.end(), [&](char c) {
        return (c >= '0' && c <= '9') || (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') ||
               marks.find(c) != std::string_view::npos;
    });
}

/// The element string of the device with its identifiers in square brackets, which no value may hold. Order:
/// fixed lengths first.
std::string element_string(const DeviceOpened& label) {
    if (!label.gtin || !parse_gtin(*label.gtin)) {
        return "";
    }
    auto text = fmt::format("[01]{}", *parse_gtin(*label.gtin));
    if (label.expiry) {
        text += fmt::format("[17]{:02}{:02}{:02}", static_cast<int>(label.expiry->year()) % 100,
                            static_cast<unsigned>(label.expiry->month()),
                            static_cast<unsigned>(label.expiry->day()));
    }
    if (label.lot && fits_element(*label.lot)) {
        text += "[10]" + *label.lot;
    }
    if (label.serial && fits_element(*label.serial)) {
        text += "[21]" + *label.serial;
    }
    return text;
}

struct Making {
    const CaseState& s;
    const Policy& policy;
    const Zone& zone;
    const SheetWords& words;
    CaseDates dates;
    const DeviceOpened* label;
    const DeviceProfile* profile;
    BalloonCard card;

    [[nodiscard]] std::string or_unknown(const std::optional<std::string>& text) const {
        return text && !text->empty() ? record::clean(*text) : words.say("card.not-known");
    }
};

void head(Making& m) {
    const auto& p = m.s.patient;
    m.card.title = m.words.say("card.title");
    m.card.name = record::clean(p.given_name.value_or("") + (p.given_name ? " " : "") +
                                p.family_name.value_or(std::string{blank}));
    m.card.born_and_number = p.born ? date_words(*p.born) : "";
    if (p.number) {
        m.card.born_and_number += (p.born ? " · " : "") + record::clean(*p.number);
    }
    m.card.practice = is_practice(m.s) ? m.words.say("practice") : "";
    m.card.note = m.words.say("card.note");
    m.card.device_code_label = m.words.say("card.device-code");
    m.card.facts_code_label = m.words.say("card.facts-code");
}

std::string volume_words(const Making& m, const CardFacts& facts) {
    if (!facts.volume) {
        return m.words.say("card.not-known");
    }
    const auto ml = record::ml_words(*facts.volume);
    if (!facts.dye) {
        return ml;
    }
    return *facts.dye <= Millilitres{} ? m.words.say("card.no-dye", {{"ml", ml}})
                                       : m.words.say("card.dye", {{"ml", ml},
                                                                  {"dye", record::ml_words(*facts.dye)},
                                                                  {"agent", record::clean(facts.dye_agent)}});
}

void balloon(Making& m, const CardFacts& facts) {
    const auto optional = [](const std::string& text) {
        return text.empty() ? std::nullopt : std::optional{text};
    };
    m.card.balloon = {{m.words.say("card.placed"), m.words.day(facts.placed, true)},
                      {m.words.say("card.volume"), volume_words(m, facts)},
                      {m.words.say("card.lot"), m.or_unknown(optional(facts.lot))},
                      {m.words.say("card.serial"), m.or_unknown(optional(facts.serial))}};
    m.card.book_by = {m.words.say("card.book-by"), m.words.day(*m.dates.book_by, true)};
    m.card.out_by = {m.words.say("card.out-by"), m.words.day(*m.dates.due, true)};
}

/// What Art. 18 asks for, by the ids of core/rules/card.h.
std::vector<std::string> missing_ids(const Making& m) {
    const auto text = [](const std::optional<std::string>& t) { return t.value_or(""); };
    const auto* p = m.profile;
    const auto of_profile = [&](std::string DeviceProfile::*field) { return p == nullptr ? "" : p->*field; };
    const auto name = of_profile(&DeviceProfile::card_name);
    return rules::implant_card_missing({
        {"device_name", name.empty() ? of_profile(&DeviceProfile::words) : name},
        {"device_type", of_profile(&DeviceProfile::card_type)},
        {"serial", m.label == nullptr ? "" : text(m.label->serial)},
        {"lot", m.label == nullptr ? "" : text(m.label->lot)},
        {"udi", m.card.device_code},
        {"maker_name", of_profile(&DeviceProfile::maker)},
        {"maker_address", of_profile(&DeviceProfile::maker_address)},
        {"maker_website", of_profile(&DeviceProfile::maker_website)},
        {"patient", m.s.patient.family_name.value_or(m.s.patient.number.value_or(""))},
        {"implant_date", date_text(*m.dates.placed)},
        {"institution_name", m.policy.clinic.name},
        {"institution_address", m.policy.clinic.address},
    });
}

std::string missing_words(const Making& m) {
    static constexpr std::array<std::pair<std::string_view, std::string_view>, 11> keys{{
        {"device_name", "card.device"},
        {"device_type", "card.type"},
        {"serial or lot", "card.lot"},
        {"udi", "card.udi"},
        {"maker_name", "card.maker"},
        {"maker_address", "card.address"},
        {"maker_website", "card.website"},
        {"patient", "card.patient"},
        {"implant_date", "card.placed"},
        {"institution_name", "card.clinic"},
        {"institution_address", "card.clinic-address"},
    }};
    std::vector<std::string> parts;
    for (const auto& id : missing_ids(m)) {
        const auto found =
            std::find_if(keys.begin(), keys.end(), [&](const auto& key) { return key.first == id; });
        parts.push_back(found == keys.end() ? id : m.words.say(found->second));
    }
    return parts.empty() ? "" : m.words.say("card.missing", {{"what", record::joined(parts)}});
}

void device(Making& m) {
    const auto add = [&](std::string_view key, const std::string& value) {
        if (!value.empty()) {
            m.card.device.push_back({m.words.say(key), record::clean(value)});
        }
    };
    const auto* p = m.profile;
    add("card.device", p == nullptr           ? m.words.say("card.not-known")
                       : p->card_name.empty() ? p->words
                                              : p->card_name);
    if (p != nullptr) {
        add("card.type", p->card_type);
        std::vector<std::string> maker;
        for (const auto& part : {p->maker, p->maker_address, p->maker_website}) {
            if (!part.empty()) {
                maker.push_back(part);
            }
        }
        add("card.maker", record::joined(maker));
    }
    if (m.label != nullptr) {
        add("card.expiry", m.label->expiry ? m.words.day(*m.label->expiry, true) : "");
        m.card.device_code = element_string(*m.label);
    }
    auto shown = m.card.device_code;
    std::replace(shown.begin(), shown.end(), '[', '(');
    std::replace(shown.begin(), shown.end(), ']', ')');
    if (!shown.empty()) {
        m.card.udi = {m.words.say("card.udi"), shown};
    }
    const auto& clinic = m.policy.clinic;
    m.card.clinic.push_back(
        {m.words.say("card.clinic"),
         record::clean(clinic.name + (clinic.address.empty() ? "" : ", ") + clinic.address)});
    m.card.clinic.push_back({m.words.say("phone"), record::clean(clinic.phone)});
    m.card.missing = missing_words(m);
}

}  // namespace

std::optional<CardFacts> card_facts(const CaseState& state, const Desk& desk, const Policy& policy,
                                    const Zone& zone) {
    const auto dates = dates_given(state, desk, policy, zone);
    if (!dates.placed) {
        return std::nullopt;
    }
    CardFacts facts;
    facts.placed = *dates.placed;
    facts.due = dates.due;
    const auto& block = state.device();
    if (const auto volume = running_volume(block); volume > Millilitres{}) {
        facts.volume = volume;
    }
    if (block.dye) {
        facts.dye = block.dye->is.ml.value_or(Millilitres{});
        facts.dye_agent = *facts.dye > Millilitres{} ? block.dye->is.agent.value_or("") : "";
    }
    if (block.label) {
        facts.lot = block.label->is.lot.value_or("");
        facts.serial = block.label->is.serial.value_or("");
        facts.gtin = block.label->is.gtin.value_or("");
    }
    facts.clinic = policy.clinic.name;
    facts.phone = policy.clinic.phone;
    return facts;
}

std::optional<BalloonCard> balloon_card(const CaseState& state, const Desk& desk, const Policy& policy,
                                        const Zone& zone, const SheetWords& words) {
    const auto facts = card_facts(state, desk, policy, zone);
    if (!facts) {
        return std::nullopt;
    }
    const auto& block = state.device();
    Making m{state,
             policy,
             zone,
             words,
             dates_given(state, desk, policy, zone),
             block.label ? &block.label->is : nullptr,
             profile_of(block, policy),
             {}};
    m.card.language = words.language();
    head(m);
    balloon(m, *facts);
    device(m);
    m.card.facts_code = card_code(*facts);
    return m.card;
}

}  // namespace brimline
