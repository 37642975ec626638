// Writing the register: table, CSV, JSON, iCalendar.
#include "core/record/register_sheet.h"

#include <fmt/format.h>

#include <algorithm>

#include "core/record/calendar.h"
#include "core/record/csv.h"
#include "core/record/fhir_bytes.h"
#include "core/record/text_words.h"

namespace brimline {
namespace {

using Column = std::pair<const char*, std::string RegisterLine::*>;
constexpr std::array<Column, 10> first_columns{
    Column{"entry", &RegisterLine::entry},     Column{"number", &RegisterLine::number},
    Column{"name", &RegisterLine::name},       Column{"placed", &RegisterLine::placed},
    Column{"volume", &RegisterLine::volume},   Column{"lot", &RegisterLine::lot},
    Column{"serial", &RegisterLine::serial},   Column{"due", &RegisterLine::due},
    Column{"book_by", &RegisterLine::book_by}, Column{"status", &RegisterLine::status}};
constexpr std::array<Column, 3> last_columns{Column{"next", &RegisterLine::next},
                                             Column{"next_date", &RegisterLine::next_date},
                                             Column{"owner", &RegisterLine::owner}};

std::string tenths_text(Millilitres v) {
    return Decimal::of_millionths(v.in_tenths() * (Decimal::scale / 10)).text();
}

void put_patient(RegisterLine& line, const CaseState& state) {
    line.number = state.patient.number.value_or("");
    line.name = state.patient.family_name.value_or("unknown");
    line.name += state.patient.given_name ? ", " + *state.patient.given_name : "";
}

RegisterLine line_of(const RegisterEntry& entry) {
    RegisterLine line;
    const auto& p = entry.placement;
    put_patient(line, *entry.state);
    line.entry = p.entry;
    line.placed = date_text(p.placed);
    line.volume = p.volume ? tenths_text(*p.volume) : "";
    line.lot = p.lot.value_or("");
    line.serial = p.serial.value_or("");
    line.due = date_text(p.due);
    line.book_by = date_text(p.book_by);
    line.status = std::string{name_of(entry.status)};
    line.flags = entry.flags;
    if (entry.next) {
        line.next = entry.next->say;
        line.next_date = date_text(entry.next->date);
        line.owner = entry.next->owner;
    }
    return line;
}

RegisterLine line_of(const UsedDevice& used) {
    RegisterLine line;
    put_patient(line, *used.state);
    const auto& label = used.block->label->is;
    line.lot = label.lot.value_or("");
    line.serial = label.serial.value_or("");
    line.volume = tenths_text(used.block->not_left_in->is.out);
    line.status = "used, not left in";
    return line;
}

/// The number of characters, for lining up; every name in the register is of letters that take one cell.
std::size_t width_of(const std::string& text) {
    return static_cast<std::size_t>(std::count_if(
        text.begin(), text.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; }));
}

std::string lined_up(const std::vector<std::vector<std::string>>& rows) {
    std::vector<std::size_t> widths;
    for (const auto& row : rows) {
        widths.resize(std::max(widths.size(), row.size()));
        for (std::size_t i = 0; i < row.size(); ++i) {
            widths[i] = std::max(widths[i], width_of(row[i]));
        }
    }
    std::string out;
    for (const auto& row : rows) {
        std::string line;
        for (std::size_t i = 0; i < row.size(); ++i) {
            line += row[i] + std::string(widths[i] - width_of(row[i]) + 2, ' ');
        }
        line.erase(line.find_last_not_of(' ') + 1);
        out += line + "\n";
    }
    return out;
}

std::string in_words(const std::string& date) {
    const auto read = parse_date(date);
    return read ? date_words(*read) : "";
}

}  // namespace

std::vector<RegisterLine> register_lines(const RegisterAsk& ask) {
    std::vector<RegisterLine> lines;
    for (const auto& entry : register_on(ask.desk, ask.policy, ask.zone, ask.on)) {
        const bool of_lot = !ask.lot || entry.placement.lot == ask.lot;
        if (of_lot && (entry.open() || ask.all || ask.lot)) {
            lines.push_back(line_of(entry));
        }
    }
    for (const auto& used : ask.lot ? not_left_in(ask.desk, *ask.lot) : std::vector<UsedDevice>{}) {
        lines.push_back(line_of(used));
    }
    return lines;
}

std::string register_table(const RegisterAsk& ask) {
    std::vector<std::vector<std::string>> rows{{"Entry", "Number", "Name", "Placed", "Volume", "Lot",
                                                "Serial", "Due", "Book by", "Status", "Flags", "Next", "By",
                                                "Owner"}};
    for (const auto& line : register_lines(ask)) {
        rows.push_back({line.entry, line.number, line.name, in_words(line.placed),
                        line.volume.empty() ? "" : line.volume + " mL", line.lot, line.serial,
                        in_words(line.due), in_words(line.book_by), line.status, record::joined(line.flags),
                        line.next, in_words(line.next_date),
                        line.owner.empty() ? "" : ask.desk.name_of_person(line.owner)});
    }
    return rows.size() == 1 ? "Nobody here.\n" : lined_up(rows);
}

std::string register_csv_header() {
    std::string out;
    for (const auto& [name, member] : first_columns) {
        out += std::string{name} + ",";
    }
    out += "flags";
    for (const auto& [name, member] : last_columns) {
        out += "," + std::string{name};
    }
    return out + ",guarded\r\n";
}

std::string register_csv_line(const RegisterLine& line) {
    CsvLine out;
    for (const auto& [name, member] : first_columns) {
        member == &RegisterLine::volume ? out.plain(line.*member) : out.text(name, line.*member);
    }
    out.text("flags", record::joined(line.flags));
    for (const auto& [name, member] : last_columns) {
        out.text(name, line.*member);
    }
    return out.end();
}

std::string register_csv(const RegisterAsk& ask) {
    std::string out = std::string{csv_mark} + register_csv_header();
    for (const auto& line : register_lines(ask)) {
        out += register_csv_line(line);
    }
    return out;
}

std::optional<RegisterLine> register_line(const CaseState& state, const RegisterAsk& ask) {
    const auto entry = entry_on(state, ask.desk, ask.policy, ask.zone, ask.on);
    return entry ? std::optional{line_of(*entry)} : std::nullopt;
}

Json register_json(const RegisterAsk& ask) {
    Json list = Json::array();
    for (const auto& line : register_lines(ask)) {
        Json one = Json::object();
        const auto put = [&](const char* name, const std::string& value) {
            if (!value.empty()) {
                one[name] = std::string_view{name} == "volume" ? Json::parse(value) : Json(value);
            }
        };
        for (const auto& [name, member] : first_columns) {
            put(name, line.*member);
        }
        one["flags"] = line.flags;
        for (const auto& [name, member] : last_columns) {
            put(name, line.*member);
        }
        list.push_back(std::move(one));
    }
    return list;
}

std::string calendar_days(const CaseState& state, const RegisterAsk& ask, Instant made) {
    const auto entry = entry_on(state, ask.desk, ask.policy, ask.zone, ask.on);
    if (!entry || !entry->next) {
        return "";
    }
    const auto& placement = entry->placement;
    const auto changes = static_cast<int>(state.flags.size());  // a flag may move a date
    const auto day = [&](std::string_view what, std::string_view words, LocalDate date,
                         std::vector<int> remind) {
        const auto uid = fhir::uuid_of(fhir::brimline_names(), fmt::format("{}/{}", state.id, what));
        return calendar_day({"urn:uuid:" + uid, fmt::format("Entry {}: {}", placement.entry, words), date,
                             changes, std::move(remind)},
                            made);
    };
    return day("book-by", "book by", placement.book_by, {0}) +
           day("due", "due", placement.due, ask.policy.reg.reminder_days);
}

std::string register_calendar(const RegisterAsk& ask, Instant made) {
    std::string out = calendar_begin();
    for (const auto& entry : register_on(ask.desk, ask.policy, ask.zone, ask.on)) {
        if (!ask.lot || entry.placement.lot == ask.lot) {
            out += calendar_days(*entry.state, ask, made);
        }
    }
    return out + calendar_end();
}

}  // namespace brimline
