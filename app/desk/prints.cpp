// Making the PDFs of a case.
#include "app/desk/prints.h"

#include <fmt/format.h>

#include <fstream>
#include <iterator>

#include "core/case/discharge_view.h"
#include "core/print/card_pdf.h"
#include "core/print/downtime_pdf.h"
#include "core/print/leaflet_pdf.h"
#include "core/print/record_pdf.h"
#include "core/record/text.h"
#include "core/store/ids.h"

namespace brimline {
namespace {

namespace fs = std::filesystem;

Expected<std::string> asset_text(const fs::path& file) {
    std::ifstream in{file, std::ios::binary};
    if (!in) {
        return refuse("assets-missing", fmt::format("{} is not there.", file.filename().string()),
                      "Install Brimline again, or print in another language.");
    }
    return std::string{std::istreambuf_iterator<char>{in}, {}};
}

Expected<SheetWords> words_in(const PrintSource& source, const std::string& wanted) {
    const auto language = wanted.empty() ? sheet_language(*source.state, source.policy) : wanted;
    if (language != source.policy.clinic.language && source.policy.sheet(language) == nullptr) {
        return refuse(
            "language-not-approved",
            fmt::format("The sheet in language \"{}\" has no version, date and approver in the policy "
                        "(print.sheets).",
                        language),
            fmt::format("Print it in \"{}\", or have it approved.", source.policy.clinic.language));
    }
    const auto text = asset_text(source.assets / "leaflet" / (language + ".json"));
    return text ? SheetWords::read(language, *text) : tl::unexpected{text.error()};
}

Expected<std::string> finished(std::string pdf) {
    if (pdf.empty()) {
        return refuse("does-not-fit", "The page could not be laid out: its texts are too long for the paper.",
                      "Shorten the clinic's name and address in the policy.");
    }
    return pdf;
}

std::string patient_words(const CaseState& state) {
    const auto& p = state.patient;
    auto words = p.family_name.value_or("unknown") + (p.given_name ? ", " + *p.given_name : "");
    words += p.born ? ", born " + date_words(*p.born) : "";
    return words + (p.number ? ", " + *p.number : "");
}

Instant latest_entry(const CaseState& state) {
    Instant latest{};
    for (const auto& kept : state.history) {
        latest = std::max(latest, kept.first.stamp.at);
    }
    return latest;
}

const store::SealedRow* sealed_row(const Reading& reading, const CaseState& state) {
    for (const auto& row : reading.sealed) {
        if (store::hex(row.case_id) == state.id && row.addendum == 0) {
            return &row;
        }
    }
    return nullptr;
}

/// The case as it stood just before its seal, and the policy of that time.
struct AtSeal {
    Memory memory;
    PolicyInForce in_force;
};
std::optional<AtSeal> at_seal(const Reading& reading, const CaseState& state) {
    std::vector<store::StoredEvent> rows;
    for (const auto& row : reading.rows) {
        if (row.seq < state.sealed->stamp.seq) {
            rows.push_back(row);
        }
    }
    auto memory = remember(std::move(rows), reading.kiosk.id);
    auto in_force = policy_in_force(memory.desk, std::nullopt);
    if (!in_force || memory.desk.find_case(state.name) == nullptr) {
        return std::nullopt;
    }
    return AtSeal{std::move(memory), std::move(*in_force)};
}

}  // namespace

Expected<print::PageSize> page_size(const std::string& paper, const Policy& policy) {
    const auto& name = paper.empty() ? policy.print.paper : paper;
    if (name == "a4") {
        return print::a4;
    }
    if (name == "letter") {
        return print::letter;
    }
    if (name == "card") {
        return print::card_size;
    }
    return refuse("unknown-paper",
                  fmt::format("--paper {}: allowed are a4, letter, and card for the card.", name));
}

Expected<std::string> leaflet_pdf_of(const PrintSource& source, const std::string& language,
                                     print::PageSize page) {
    const auto words = words_in(source, language);
    if (!words) {
        return tl::unexpected{words.error()};
    }
    const auto sheet =
        leaflet_sheet(*source.state, source.desk, source.policy, source.zone, *words, source.now);
    return finished(print::leaflet_pdf(sheet, page, latest_entry(*source.state)));
}

Expected<std::string> card_pdf_of(const PrintSource& source, const std::string& language,
                                  print::PageSize page) {
    const auto words = words_in(source, language);
    if (!words) {
        return tl::unexpected{words.error()};
    }
    const auto card = balloon_card(*source.state, source.desk, source.policy, source.zone, *words);
    if (!card) {
        return refuse("no-balloon", fmt::format("No balloon stays in by case \"{}\".", source.state->name),
                      "A card is printed once the catheter is off.");
    }
    return finished(print::card_pdf(*card, words->say("caution"), page, latest_entry(*source.state)));
}

Expected<std::string> downtime_pdf_of(const PrintSource& source, print::PageSize page) {
    const auto text = asset_text(source.assets / "paper" / (source.policy.clinic.language + ".json"));
    const auto english = text ? text : asset_text(source.assets / "paper" / "en.json");
    if (!english) {
        return tl::unexpected{english.error()};
    }
    const auto words = print::PaperWords::read(*english);
    if (!words) {
        return tl::unexpected{words.error()};
    }
    return finished(print::downtime_pdf(source.policy, *words, page, source.now));
}

Expected<std::string> record_pdf_of(const RecordSource& source, print::PageSize page) {
    print::RecordPrint record;
    record.zone = source.zone;
    record.clinic = source.policy_now.clinic.name;
    record.patient = patient_words(source.now);
    record.practice = is_practice(source.now);
    record.created = latest_entry(source.now);
    const auto number = source.sealed == nullptr ? std::string{} : source.sealed->number;
    record.sheet = record_sheet(source.told, source.desk_then, source.policy_then, source.zone, number);
    record.charts = record_charts(source.told, source.desk_then, source.policy_then, source.zone);
    if (source.sealed != nullptr) {
        record.number = number;
        record.hash = store::hex(source.sealed->body_hash);
        record.signature = store::hex(source.sealed->signature);
        record.key = source.key;
        record.addenda = addenda_sheet(source.now, source.desk_now, source.zone);
        record.as_sealed = record.sheet.text() == source.sealed->body;
    }
    return finished(print::record_pdf(record, page));
}

Expected<std::string> record_pdf_of(const Reading& reading, const CaseState& state, print::PageSize page) {
    const auto& desk = reading.memory.desk;
    const auto& in_force = reading.in_force;
    const auto* row = state.sealed ? sealed_row(reading, state) : nullptr;
    const auto then = row == nullptr ? std::nullopt : at_seal(reading, state);
    if (!then) {
        return record_pdf_of(
            RecordSource{state, state, desk, desk, in_force.policy, in_force.policy, in_force.zone, row, ""},
            page);
    }
    const auto key = reading.keys.find(row->number);
    const auto& desk_then = then->memory.desk;
    return record_pdf_of(RecordSource{*desk_then.find_case(state.name), state, desk_then, desk,
                                      then->in_force.policy, in_force.policy, then->in_force.zone, row,
                                      key == reading.keys.end() ? "" : store::hex(key->second)},
                         page);
}

}  // namespace brimline
