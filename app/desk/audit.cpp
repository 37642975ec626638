// brimline list and brimline audit: the day's list, and a month in figures with denominators.
#include "core/desk/audit.h"

#include <fmt/format.h>

#include "app/desk/commands.h"
#include "app/loop/room.h"
#include "core/case/codec.h"
#include "core/desk/today.h"
#include "core/record/text_words.h"
#include "core/store/clock.h"

namespace brimline::desk {
namespace {

struct Options {
    std::filesystem::path data;
    std::string on, month, format{"table"};
};

/// The store and the moment that counts as now.
struct Looked {
    Reading reading;
    Instant now;
};
tl::expected<Looked, RoomFault> look(const Options& options) {
    auto reading = read_store(options.data);
    if (!reading) {
        return tl::unexpected{reading.error()};
    }
    tell_copy(reading->copied);
    store::SystemClock clock;
    const auto& desk = reading->memory.desk;
    const auto now = desk.scripts_only ? desk.last_at : clock.utc();
    return Looked{std::move(*reading), now};
}

std::string name_of_patient(const CaseState& state) {
    return state.patient.family_name.value_or("unknown") +
           (state.patient.given_name ? ", " + *state.patient.given_name : "");
}

Json listed_json(const Listed& one, const Zone& zone) {
    const auto& s = *one.state;
    Json line{{"case", s.name}, {"kind", std::string{name_of(s.kind)}}, {"name", name_of_patient(s)}};
    if (s.patient.number) {
        line["number"] = *s.patient.number;
    }
    if (s.planned) {
        line["planned"] = instant_text(*s.planned, zone);
    }
    if (s.room) {
        line["room"] = *s.room;
    }
    line["stage"] = one.stage ? Json(std::string{name_of(*one.stage)}) : Json("sealed");
    line["overdue"] = one.overdue;
    return line;
}

int run_list(const Options& options) {
    auto looked = look(options);
    if (!looked) {
        return complain(looked.error().say, looked.error().exit_code);
    }
    const auto& zone = looked->reading.in_force.zone;
    auto now = looked->now;
    if (!options.on.empty()) {
        const auto date = parse_date(options.on);
        if (!date) {
            return complain(fmt::format("--on {}: a date that exists is needed, as 2026-11-25.", options.on),
                            2);
        }
        now = now + std::chrono::hours{24 * days_between(zone.date_of(now), *date)};
    }
    const auto list = list_of_day(looked->reading.memory.desk, zone, now);
    if (options.format == "json") {
        Json lines = Json::array();
        for (const auto& one : list) {
            lines.push_back(listed_json(one, zone));
        }
        fmt::print("{}\n", lines.dump(2));
        return 0;
    }
    for (const auto& one : list) {
        const auto& s = *one.state;
        fmt::print("{}  {}  {}  {}  {}  {}{}\n", s.planned ? clock_text(*s.planned, zone) : "--:--",
                   s.room.value_or("no room"), s.name, name_of_patient(s), s.patient.number.value_or(""),
                   one.stage ? name_of(*one.stage) : "sealed", one.overdue ? "  NOT FINISHED" : "");
    }
    if (list.empty()) {
        fmt::print("Nobody here.\n");
    }
    return 0;
}

/// "2026-11" as a month.
std::optional<std::chrono::year_month> month_named(const std::string& text) {
    const auto first = parse_date(text + "-01");
    return first ? std::optional{first->year() / first->month()} : std::nullopt;
}

Json share_json(const Share& share) { return Json{{"n", share.n}, {"of", share.of}}; }

Json figures_json(const MonthFigures& f) {
    Json out{{"placements", f.placements},
             {"deferred", f.deferred},
             {"abandoned", f.abandoned},
             {"removals", f.removals},
             {"removed_on_time", share_json(f.removed_on_time)},
             {"overdue_at_end", f.overdue_at_end},
             {"entered_live", share_json(f.entered_live)},
             {"counts_parted", share_json(f.counts_parted)},
             {"overrides", Json::object()}};
    for (const auto& [reason, n] : f.overrides) {
        out["overrides"][reason] = n;
    }
    if (f.median_volume) {
        out["median_volume_ml"] = Json::parse(f.median_volume->text(1));
    }
    if (f.median_fill) {
        out["median_fill_s"] = whole_seconds(*f.median_fill);
    }
    return out;
}

std::string share_words(const Share& share) { return fmt::format("{} of {}", share.n, share.of); }

void print_table(const MonthFigures& f, const Policy& policy) {
    const auto row = [](const char* what, const std::string& value) {
        fmt::print("{:32} {}\n", what, value);
    };
    row("Placements", std::to_string(f.placements));
    row("Deferred", std::to_string(f.deferred));
    row("Abandoned", std::to_string(f.abandoned));
    row("Removals", std::to_string(f.removals));
    row("Removed on time, of those due", share_words(f.removed_on_time));
    row("Overdue at the end", std::to_string(f.overdue_at_end));
    row("Entered live", share_words(f.entered_live));
    row("Count checks that differed", share_words(f.counts_parted));
    for (const auto& [reason, n] : f.overrides) {
        row("Override", fmt::format("{}: {}", record::words_of(policy.lists.override_reasons, reason), n));
    }
    row("Median volume", f.median_volume ? f.median_volume->text(1) + " mL" : "nobody");
    row("Median fill", f.median_fill ? record::span_words(*f.median_fill) : "nobody");
}

int run_audit(const Options& options) {
    auto looked = look(options);
    if (!looked) {
        return complain(looked.error().say, looked.error().exit_code);
    }
    const auto& in_force = looked->reading.in_force;
    const auto today = in_force.zone.date_of(looked->now);
    const auto month =
        options.month.empty() ? std::optional{today.year() / today.month()} : month_named(options.month);
    if (!month) {
        return complain(fmt::format("--month {}: a month is needed, as 2026-11.", options.month), 2);
    }
    DeskBook book;
    book.follow(looked->reading.memory.desk, in_force.policy, in_force.zone, today);
    const auto figures = month_figures(book, in_force.policy, *month);
    options.format == "json" ? fmt::print("{}\n", figures_json(figures).dump(2))
                             : print_table(figures, in_force.policy);
    return 0;
}

}  // namespace

void add_audit(CLI::App& app, Run& run) {
    auto options = std::make_shared<Options>();
    auto* list = app.add_subcommand("list", "The day's list");
    add_data_option(*list, options->data);
    list->add_option("--on", options->on, "As if today were that day")->type_name("DATE");
    list->add_option("--format", options->format, "How it is written")
        ->check(CLI::IsMember({"table", "json"}));
    list->callback([options, &run] { run = [options] { return run_list(*options); }; });
    auto* audit = app.add_subcommand("audit", "A month in figures, each with its denominator");
    add_data_option(*audit, options->data);
    audit->add_option("--month", options->month, "Another month than this one")->type_name("YYYY-MM");
    audit->add_option("--format", options->format, "How it is written")
        ->check(CLI::IsMember({"table", "json"}));
    audit->callback([options, &run] { run = [options] { return run_audit(*options); }; });
}

}  // namespace brimline::desk
