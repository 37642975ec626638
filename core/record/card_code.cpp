// Writing and reading the code of a balloon card.
#include "core/record/card_code.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <vector>

#include "core/record/text_layout.h"
#include "core/units/decimal.h"

namespace brimline {
namespace {

constexpr std::string_view first_line = "BALLOON CARD 1";
constexpr std::string_view any_version = "BALLOON CARD ";
constexpr std::string_view check_word = "Check";
constexpr std::size_t longest_volume = 8;  // "99999.9" and one more

std::uint16_t crc16(std::string_view bytes) {
    std::uint32_t crc = 0xFFFF;
    for (const char c : bytes) {
        crc ^= static_cast<std::uint32_t>(static_cast<unsigned char>(c)) << 8U;
        for (int bit = 0; bit < 8; ++bit) {
            crc = (crc & 0x8000U) != 0 ? (crc << 1U) ^ 0x1021U : crc << 1U;
        }
        crc &= 0xFFFFU;
    }
    return static_cast<std::uint16_t>(crc);
}

std::string_view trimmed(std::string_view text) {
    while (!text.empty() && (text.back() == ' ' || text.back() == '\r' || text.back() == '\t')) {
        text.remove_suffix(1);
    }
    while (!text.empty() && (text.front() == ' ' || text.front() == '\t')) {
        text.remove_prefix(1);
    }
    return text;
}

/// Shortened to the bytes a code has for it, never inside a character.
std::string fitted(std::string_view text) {
    auto safe = std::string{trimmed(record::clean(text))};
    if (safe.size() <= longest_card_text) {
        return safe;
    }
    auto end = longest_card_text - 3;
    while (end > 0 && (static_cast<unsigned char>(safe[end]) & 0xC0U) == 0x80U) {
        --end;
    }
    return std::string{trimmed(std::string_view{safe}.substr(0, end))} + "...";
}

std::string ml(Millilitres v) {
    return Decimal::of_millionths(v.in_tenths() * (Decimal::scale / 10)).text() + " mL";
}

std::string dye_line(const CardFacts& facts) {
    if (!facts.dye) {
        return "";
    }
    if (*facts.dye <= Millilitres{}) {
        return "none";
    }
    const auto agent = fitted(facts.dye_agent);
    return ml(*facts.dye) + (agent.empty() ? "" : " " + agent);
}

std::optional<Millilitres> volume_of(std::string_view text) {
    if (text.size() < 4 || !text.ends_with(" mL") || text.size() > longest_volume + 3) {
        return std::nullopt;
    }
    const auto number = Decimal::parse(text.substr(0, text.size() - 3));
    if (!number || *number <= Decimal{} || number->in_millionths() % (Decimal::scale / 10) != 0) {
        return std::nullopt;
    }
    return Millilitres::of_tenths(number->in_millionths() / (Decimal::scale / 10));
}

tl::unexpected<Refusal> bad(std::string code, std::string say) {
    return refuse(std::move(code), std::move(say), "Scan the card again, or type what is printed on it.");
}

tl::unexpected<Refusal> bad_field(std::string_view word, std::string_view value) {
    return bad("card-code-field",
               fmt::format("The card's code says \"{}: {}\", which cannot be true.", word, value));
}

using Fields = std::map<std::string, std::string, std::less<>>;

/// The lines by their words, once the first line and the check are found good.
Expected<Fields> fields_of(std::string_view text) {
    if (text.empty() || text.size() > longest_card_code) {
        return bad("card-code-not-one", "This code is not that of a balloon card.");
    }
    std::string before;
    Fields fields;
    std::size_t number = 0;
    while (!text.empty()) {
        const auto end = std::min(text.find('\n'), text.size());
        const auto line = trimmed(text.substr(0, end));
        text.remove_prefix(std::min(end + 1, text.size()));
        if (number++ == 0) {
            if (!line.starts_with(any_version)) {
                return bad("card-code-not-one", "This code is not that of a balloon card.");
            }
            if (line != first_line) {
                return bad("card-code-version",
                           fmt::format("The card's code is of a later version (\"{}\").", line));
            }
        } else if (const auto colon = line.find(':'); colon != std::string_view::npos) {
            const auto word = line.substr(0, colon);
            const auto value = trimmed(line.substr(colon + 1));
            if (word == check_word) {
                if (value == fmt::format("{:04X}", crc16(before)) && trimmed(text).empty()) {
                    return fields;
                }
                break;
            }
            if (!fields.emplace(word, value).second) {
                return bad_field(word, value);
            }
        }
        before += std::string{line} + "\n";
    }
    return bad("card-code-damaged",
               "The card's code does not fit its check: something is missing or altered.");
}

bool read_date(const Fields& fields, std::string_view word, std::optional<LocalDate>& into) {
    const auto found = fields.find(word);
    if (found != fields.end()) {
        into = parse_date(found->second);
    }
    return found == fields.end() || into.has_value();
}

bool read_dye(const std::string& value, CardFacts& facts) {
    if (value == "none") {
        facts.dye = Millilitres{};
        return true;
    }
    const auto unit = value.find(" mL");
    if (unit == std::string::npos) {
        return false;
    }
    facts.dye = volume_of(std::string_view{value}.substr(0, unit + 3));
    facts.dye_agent = std::string{trimmed(std::string_view{value}.substr(unit + 3))};
    return facts.dye.has_value();
}

std::string text_of(const Fields& fields, std::string_view word) {
    const auto found = fields.find(word);
    return found == fields.end() ? "" : found->second;
}

}  // namespace

std::string card_code(const CardFacts& facts) {
    std::string text = std::string{first_line} + "\n";
    const auto put = [&](std::string_view word, const std::string& value) {
        text += value.empty() ? "" : fmt::format("{}: {}\n", word, value);
    };
    put("Placed", date_text(facts.placed));
    put("Out by", facts.due ? date_text(*facts.due) : "");
    put("Volume", facts.volume ? ml(*facts.volume) : "");
    put("Dye", dye_line(facts));
    put("Lot", fitted(facts.lot));
    put("Serial", fitted(facts.serial));
    put("Device", fitted(facts.gtin));
    put("Clinic", fitted(facts.clinic));
    put("Phone", fitted(facts.phone));
    return text + fmt::format("{}: {:04X}", check_word, crc16(text));
}

Expected<CardFacts> read_card_code(std::string_view text) {
    const auto fields = fields_of(text);
    if (!fields) {
        return tl::unexpected{fields.error()};
    }
    CardFacts facts;
    std::optional<LocalDate> placed;
    if (!read_date(*fields, "Placed", placed) || !placed) {
        return bad_field("Placed", text_of(*fields, "Placed"));
    }
    facts.placed = *placed;
    if (!read_date(*fields, "Out by", facts.due)) {
        return bad_field("Out by", text_of(*fields, "Out by"));
    }
    if (const auto volume = fields->find("Volume"); volume != fields->end()) {
        facts.volume = volume_of(volume->second);
        if (!facts.volume) {
            return bad_field("Volume", volume->second);
        }
    }
    if (const auto dye = fields->find("Dye"); dye != fields->end() && !read_dye(dye->second, facts)) {
        return bad_field("Dye", dye->second);
    }
    facts.lot = text_of(*fields, "Lot");
    facts.serial = text_of(*fields, "Serial");
    facts.gtin = text_of(*fields, "Device");
    facts.clinic = text_of(*fields, "Clinic");
    facts.phone = text_of(*fields, "Phone");
    return facts;
}

}  // namespace brimline
