// Writing the tables.
#include "core/record/csv.h"

#include <fmt/format.h>

#include <algorithm>
#include <span>

#include "core/case/codec.h"
#include "core/record/register_sheet.h"
#include "core/record/text_parts.h"
#include "core/rules/vitals.h"

namespace brimline {
namespace {

constexpr std::array<std::string_view, 17> vital_columns{
    "case",           "record",    "entry",        "happened",   "entered",    "hr_per_min", "systolic_mmhg",
    "diastolic_mmhg", "map_mmhg",  "spo2_percent", "rr_per_min", "etco2_mmhg", "not_taken",  "by",
    "said_by",        "corrected", "guarded"};
constexpr std::array<std::string_view, 15> dose_columns{"case",    "record", "entry", "happened", "until",
                                                        "entered", "kind",   "drug",  "name",     "amount",
                                                        "unit",    "route",  "by",    "said_by",  "guarded"};
constexpr std::array<std::string_view, 15> event_columns{
    "case", "record",  "entry", "happened", "entered",   "kind",      "how",    "by",
    "role", "said_by", "words", "fields",   "withdrawn", "corrected", "guarded"};

std::string joined(std::span<const std::string_view> columns) {
    return fmt::format("{}\r\n", fmt::join(columns, ","));
}

std::string text_of(const std::optional<int>& value) { return value ? std::to_string(*value) : ""; }

bool was_corrected(const CaseState& s, std::int64_t seq) {
    return std::any_of(s.corrections.begin(), s.corrections.end(),
                       [&](const auto& one) { return one.is.entry == seq; });
}

/// The first fields of every table: case, record, entry.
CsvLine begun(const CsvAsk& ask, std::int64_t seq) {
    CsvLine line;
    line.text("case", ask.state.name).plain(ask.state.sealed ? ask.state.sealed->is.number : "");
    line.plain(std::to_string(seq));
    return line;
}

std::string mean_of(const Vitals& set) {
    const auto mean = set.systolic && set.diastolic ? rules::mean_pressure(*set.systolic, *set.diastolic)
                                                    : Expected<Fraction>{};
    return set.systolic && set.diastolic && mean ? mean->text(0) : "";
}

std::string vital_signs(const CsvAsk& ask) {
    std::string out;
    for (const auto& [stamp, is] : ask.state.vitals) {
        auto line = begun(ask, stamp.seq);
        line.plain(instant_text(stamp.happened, ask.zone)).plain(instant_text(stamp.at, ask.zone));
        for (const auto& value : {is.hr, is.systolic, is.diastolic}) {
            line.plain(text_of(value));
        }
        line.plain(mean_of(is));
        for (const auto& value : {is.spo2, is.rr, is.etco2}) {
            line.plain(text_of(value));
        }
        line.text("not_taken", is.not_taken.value_or("")).text("by", stamp.by);
        line.text("said_by", stamp.said_by.value_or(""));
        line.plain(record::yes_no(was_corrected(ask.state, stamp.seq)));
        out += line.end();
    }
    return out;
}

/// What one line of the doses says beside who and when.
struct DoseLine {
    std::string_view kind;
    std::string drug;
    Decimal amount;
    std::string_view unit;
    std::string route, until;
};

std::string dose_line(const CsvAsk& ask, const Stamp& stamp, const DoseLine& dose) {
    auto line = begun(ask, stamp.seq);
    line.plain(instant_text(stamp.happened, ask.zone))
        .plain(dose.until)
        .plain(instant_text(stamp.at, ask.zone));
    line.plain(dose.kind).text("drug", dose.drug).text("name", record::drug_words(ask.policy, dose.drug));
    line.plain(dose.amount.text()).plain(dose.unit).text("route", dose.route);
    line.text("by", stamp.by).text("said_by", stamp.said_by.value_or(""));
    return line.end();
}

std::string doses(const CsvAsk& ask) {
    std::string out;
    const auto one = [&](const Stamp& stamp, const Dose& is, std::string_view kind) {
        out += dose_line(ask, stamp, {kind, is.drug, is.amount, name_of(is.unit), is.route.value_or(""), ""});
    };
    for (const auto& [stamp, is] : ask.state.doses) {
        one(stamp, is, "dose");
    }
    for (const auto& run : ask.state.infusions) {
        const auto& is = run.start.is;
        out += dose_line(ask, run.start.stamp,
                         {"infusion", is.drug, is.rate, name_of(is.unit), "",
                          run.stop ? instant_text(run.stop->happened, ask.zone) : ""});
    }
    for (const auto& kept : ask.state.history) {
        if (const auto* dose = kept.withdrawn ? std::get_if<Dose>(&kept.now.event) : nullptr) {
            one(kept.now.stamp, *dose, "withdrawn");
        }
    }
    return out;
}

std::string events(const CsvAsk& ask) {
    Instant end{};
    for (const auto& kept : ask.state.history) {
        end = std::max(end, kept.first.stamp.at);
    }
    const record::Source source{ask.state, ask.desk, ask.policy, ask.zone, end, ask.zone.date_of(end)};
    std::string out;
    for (const auto& kept : ask.state.history) {
        const auto& stamp = kept.first.stamp;
        auto line = begun(ask, stamp.seq);
        line.plain(instant_text(stamp.happened, ask.zone)).plain(instant_text(stamp.at, ask.zone));
        line.plain(kind_of(kept.first.event)).plain(name_of(stamp.how)).text("by", stamp.by);
        line.plain(name_of(stamp.role)).text("said_by", stamp.said_by.value_or(""));
        line.text("words", record::entry_words(kept.first.event, source));
        line.text("fields",
                  fields_json(kept.first.event).dump(-1, ' ', false, Json::error_handler_t::replace));
        line.plain(record::yes_no(kept.withdrawn)).plain(record::yes_no(was_corrected(ask.state, stamp.seq)));
        out += line.end();
    }
    return out;
}

}  // namespace

CsvLine& CsvLine::plain(std::string_view value) {
    cell(std::string{value});
    return *this;
}

CsvLine& CsvLine::text(std::string_view column, std::string_view value) {
    constexpr std::string_view starts{"=+-@\t\r\0", 7};
    std::string guarded{value};
    if (!value.empty() && starts.find(value.front()) != std::string_view::npos) {
        guarded.insert(guarded.begin(), '\'');
        guarded_ += (guarded_.empty() ? "" : " ") + std::string{column};
    }
    cell(std::move(guarded));
    return *this;
}

std::string CsvLine::end() {
    cell(guarded_);
    return line_ + "\r\n";
}

void CsvLine::cell(std::string value) {
    line_ += first_ ? "" : ",";
    first_ = false;
    if (value.find_first_of(",\"\r\n") == std::string::npos) {
        line_ += value;
        return;
    }
    line_ += '"';
    for (const char c : value) {
        line_ += c == '"' ? "\"\"" : std::string{c};
    }
    line_ += '"';
}

std::string csv_header(CsvTable table) {
    switch (table) {
        case CsvTable::vital_signs:
            return joined(vital_columns);
        case CsvTable::doses:
            return joined(dose_columns);
        case CsvTable::events:
            return joined(event_columns);
        case CsvTable::entries:
            break;
    }
    return register_csv_header();
}

std::string csv_lines(CsvTable table, const CsvAsk& ask) {
    switch (table) {
        case CsvTable::vital_signs:
            return vital_signs(ask);
        case CsvTable::doses:
            return doses(ask);
        case CsvTable::events:
            return events(ask);
        case CsvTable::entries:
            break;
    }
    const auto line = register_line(ask.state, {ask.desk, ask.policy, ask.zone, ask.on, std::nullopt, true});
    return line ? register_csv_line(*line) : "";
}

}  // namespace brimline
