// Laying the paper sheet out.
#include "core/print/downtime_pdf.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "core/case/codec.h"
#include "core/print/flow.h"
#include "core/record/text_layout.h"
#include "core/record/text_words.h"

namespace brimline::print {
namespace {

constexpr std::array needed = std::to_array<std::string_view>({"title",
                                                               "number",
                                                               "how",
                                                               "page",
                                                               "caution",
                                                               "patient",
                                                               "name",
                                                               "born",
                                                               "hospital-number",
                                                               "room",
                                                               "date",
                                                               "team",
                                                               "allergies",
                                                               "none-known",
                                                               "weight",
                                                               "height",
                                                               "consent",
                                                               "identity",
                                                               "escort",
                                                               "language",
                                                               "fasting",
                                                               "fasting-rule",
                                                               "clear",
                                                               "milk",
                                                               "light-meal",
                                                               "fatty-meal",
                                                               "screen",
                                                               "yes",
                                                               "no",
                                                               "time",
                                                               "by",
                                                               "airway",
                                                               "pause-sedation",
                                                               "pause-device",
                                                               "pause-leaving",
                                                               "present",
                                                               "sedation",
                                                               "start",
                                                               "end",
                                                               "scope-in",
                                                               "scope-out",
                                                               "doses",
                                                               "drug",
                                                               "amount",
                                                               "vitals",
                                                               "vitals-every",
                                                               "hr",
                                                               "bp",
                                                               "spo2",
                                                               "rr",
                                                               "etco2",
                                                               "depth",
                                                               "oxygen",
                                                               "airway-event",
                                                               "lowest",
                                                               "action",
                                                               "look",
                                                               "findings",
                                                               "go",
                                                               "no-go",
                                                               "reason",
                                                               "device",
                                                               "label-here",
                                                               "lot",
                                                               "serial",
                                                               "expiry",
                                                               "gtin",
                                                               "band",
                                                               "ceiling",
                                                               "saline",
                                                               "laid-out",
                                                               "dye",
                                                               "position",
                                                               "fill",
                                                               "fill-how",
                                                               "check",
                                                               "said",
                                                               "pedal",
                                                               "left-over",
                                                               "read-back",
                                                               "off",
                                                               "valve",
                                                               "whole",
                                                               "recovery",
                                                               "recovery-every",
                                                               "activity",
                                                               "respiration",
                                                               "circulation",
                                                               "consciousness",
                                                               "oxygen-score",
                                                               "total",
                                                               "nausea",
                                                               "pain",
                                                               "drink",
                                                               "discharge",
                                                               "home-with",
                                                               "signatures",
                                                               "sedation-part",
                                                               "nursing-part",
                                                               "physician-part",
                                                               "signature",
                                                               "profile"});

constexpr double side = 34, foot_height = 30, top = 30;

struct Making {
    const Policy& policy;
    const PaperWords& words;
    Canvas& canvas;
    Flow& flow;

    [[nodiscard]] double width() const { return canvas.page().w - 2 * side; }
};

void section(const Making& m, const std::string& text, const std::string& note = "") {
    const double width = m.width();
    m.flow.space(5);
    m.flow.heading(15, [=](Canvas& c, double y) {
        c.fill(side, y, width, 12.5, 0.88);
        c.begin("H2");
        c.text(side + 4, y + 0.2, width, text, {8.6, Face::bold});
        c.end("H2");
        c.text(side + 4, y + 1.2, width - 8, note, {7, Face::words, Align::right, 0.1});
    });
}

/// Lines to write on, several in a row: each a label and its share of the width.
void blanks(const Making& m, const std::vector<std::pair<std::string, double>>& fields) {
    double shares = 0;
    for (const auto& [label, share] : fields) {
        shares += share;
    }
    const double unit = m.width() / shares;
    m.flow.piece(18, [=](Canvas& c, double y) {
        double x = side;
        for (const auto& [label, share] : fields) {
            const double w = unit * share;
            const double used = c.width(label, {7.6}) + 3;
            c.text(x, y + 5.5, w, label, {7.6});
            c.line(x + used, y + 15.5, x + w - 6, y + 15.5, 0.5);
            x += w;
        }
    });
}

/// A question with boxes for yes and no.
void check(const Making& m, const std::string& words, bool with_time) {
    const double width = m.width();
    const auto yes = m.words.say("yes");
    const auto no = m.words.say("no");
    const auto time = with_time ? m.words.say("time") : "";
    const double room = width - (with_time ? 170 : 90);
    const double h = std::max(13.0, m.canvas.height(room, words, {7.8}) + 3);
    m.flow.piece(h, [=](Canvas& c, double y) {
        c.text(side + 2, y + 1, room, words, {7.8});
        double x = side + room + 6;
        for (const auto& answer : {yes, no}) {
            c.box(x, y + 1.8, 8, 8, 0.8);
            c.text(x + 11, y + 0.8, 30, answer, {7.6});
            x += 40;
        }
        if (with_time) {
            c.text(x, y + 0.8, 30, time, {7.6});
            c.line(x + 24, y + 10.5, side + width, y + 10.5, 0.5);
        }
        c.line(side, y + h - 0.6, side + width, y + h - 0.6, 0.2, 0.7);
    });
}

void checks(const Making& m, const std::vector<Check>& list, bool with_time) {
    for (const auto& one : list) {
        check(m, record::clean(one.words), with_time);
    }
}

/// An empty table.
void grid(const Making& m, const std::vector<std::pair<std::string, double>>& columns, int rows,
          double high = 15) {
    double shares = 0;
    for (const auto& [label, share] : columns) {
        shares += share;
    }
    const double width = m.width();
    const double unit = width / shares;
    m.flow.heading(11, [=](Canvas& c, double y) {
        double x = side;
        for (const auto& [label, share] : columns) {
            c.fitted(x + 2, y, unit * share - 3, label, {7, Face::bold}, 5);
            x += unit * share;
        }
    });
    for (int i = 0; i < rows; ++i) {
        m.flow.piece(high, [=](Canvas& c, double y) {
            double x = side;
            for (const auto& [label, share] : columns) {
                c.box(x, y, unit * share, high, 0.4);
                x += unit * share;
            }
        });
    }
}

std::string hours(minutes m) { return record::span_words(std::chrono::duration_cast<Duration>(m)); }

void arrival(const Making& m) {
    const auto say = [&](const char* key) { return m.words.say(key); };
    section(m, say("patient"));
    blanks(m, {{say("name"), 3}, {say("born"), 1.6}, {say("hospital-number"), 1.8}});
    blanks(m, {{say("date"), 1.3}, {say("room"), 1}, {say("language"), 1.3}, {say("team"), 3}});
    blanks(m, {{say("allergies"), 3}, {say("none-known"), 1.2}, {say("weight"), 1.4}, {say("height"), 1.4}});
    check(m, say("identity"), true);
    check(m, say("consent"), true);
    const auto& f = m.policy.fasting;
    section(m, say("fasting"), say("fasting-rule"));
    blanks(m, {{m.words.say("clear", hours(f.clear_fluid)), 1}, {m.words.say("milk", hours(f.milk)), 1}});
    blanks(m, {{m.words.say("light-meal", hours(f.light_meal)), 1},
               {m.words.say("fatty-meal", hours(f.fatty_meal)), 1}});
    section(m, say("screen"));
    checks(m, m.policy.lists.screen, false);
    blanks(m, {{say("airway"), 3}, {say("escort"), 2}});
}

void in_the_room(const Making& m) {
    const auto say = [&](const char* key) { return m.words.say(key); };
    section(m, say("pause-sedation"));
    blanks(m, {{say("present"), 4}, {say("time"), 1}});
    checks(m, m.policy.lists.before_sedation, false);
    section(m, say("sedation"));
    blanks(m, {{say("start"), 1}, {say("scope-in"), 1}, {say("scope-out"), 1}, {say("end"), 1}});
    std::string drugs;
    for (const auto& drug : m.policy.formulary) {
        drugs += (drugs.empty() ? "" : ", ") + record::clean(drug.words) + " (" + drug.unit_words + ")";
    }
    section(m, say("doses"), "");
    const double width = m.width();
    const Style small{7, Face::words, Align::left, 0.1};
    m.flow.piece(m.canvas.height(width, drugs, small) + 2,
                 [=](Canvas& c, double y) { c.text(side, y, width, drugs, small); });
    constexpr int dose_rows = 10, vital_rows = 14, airway_rows = 3;
    grid(m, {{say("time"), 1}, {say("drug"), 3}, {say("amount"), 1.4}, {say("by"), 1.6}}, dose_rows);
    section(m, say("vitals"), m.words.say("vitals-every", record::span_words(m.policy.vitals.interval)));
    grid(m,
         {{say("time"), 1},
          {say("hr"), 1},
          {say("bp"), 1.5},
          {say("spo2"), 1},
          {say("rr"), 1},
          {say("etco2"), 1},
          {say("depth"), 1},
          {say("oxygen"), 1},
          {say("by"), 1.2}},
         vital_rows);
    section(m, say("airway-event"));
    grid(m, {{say("start"), 1}, {say("end"), 1}, {say("lowest"), 1}, {say("action"), 3}}, airway_rows);
}

/// Boxes to tick off, one a syringe, with a line to write the three numbers at each count check.
void syringes(const Making& m) {
    const int every = std::max(1, m.policy.fill.count_check_every);
    constexpr int boxes = 20;
    const double width = m.width();
    const auto each = record::ml_words(m.policy.fill.syringe);
    const auto said = m.words.say("said");
    const auto pedal = m.words.say("pedal");
    const auto name = m.words.say("check");
    m.flow.piece(12, [=, words = m.words.say("fill-how", each)](Canvas& c, double y) {
        c.text(side, y, width, words, {7.4});
    });
    for (int from = 0; from < boxes; from += every) {
        const int to = std::min(boxes, from + every);
        m.flow.piece(25, [=](Canvas& c, double y) {
            double x = side;
            for (int i = from; i < to; ++i) {
                c.box(x, y, 32, 21, 0.8);
                c.text(x + 2, y, 20, std::to_string(i + 1), {7, Face::digits});
                x += 36;
            }
            x += 6;
            c.text(x, y + 7, 60, name, {7.4, Face::bold});
            x += 56;
            for (const auto& label : {said, pedal}) {
                c.text(x, y + 7, 60, label, {7.4});
                c.line(x + 30, y + 17, x + 66, y + 17, 0.5);
                x += 72;
            }
        });
    }
}

void balloon(const Making& m) {
    const auto say = [&](const char* key) { return m.words.say(key); };
    section(m, say("look"));
    blanks(m, {{say("findings"), 4}});
    blanks(m, {{say("go"), 1}, {say("no-go"), 1}, {say("reason"), 3}, {say("time"), 1}});
    section(m, say("pause-device"));
    blanks(m, {{say("present"), 4}, {say("time"), 1}});
    checks(m, m.policy.lists.before_device, false);
    section(m, say("device"));
    const double width = m.width();
    m.flow.piece(46, [=, words = say("label-here")](Canvas& c, double y) {
        c.box(side, y + 2, width * 0.55, 42, 0.6, 0.3, Dash::dashed);
        c.text(side + 5, y + 4, width * 0.5, words, {7, Face::words, Align::left, 0.2});
    });
    blanks(m, {{say("gtin"), 2}, {say("lot"), 1.3}, {say("serial"), 1.3}, {say("expiry"), 1.3}});
    for (const auto& profile : m.policy.devices) {
        const auto words = fmt::format(
            "{}: {} ({}). {} {} – {}, {} {}", say("profile"), record::clean(profile.words), profile.gtin,
            say("band"), record::ml_words(profile.band_low), record::ml_words(profile.band_high),
            say("ceiling"), record::ml_words(profile.ceiling));
        m.flow.piece(11, [=](Canvas& c, double y) { c.fitted(side, y, width, words, {7.6, Face::bold}, 5); });
    }
    blanks(m, {{say("saline"), 1.6}, {say("laid-out"), 1.4}, {say("dye"), 1.6}, {say("position"), 1.6}});
    section(m, say("fill"));
    syringes(m);
    blanks(m, {{say("left-over"), 1.4}, {say("read-back"), 1.4}, {say("said"), 1.2}, {say("by"), 1}});
    blanks(m, {{say("off"), 1}, {say("valve"), 1.2}, {say("whole"), 1.3}});
    section(m, say("pause-leaving"));
    checks(m, m.policy.lists.before_leaving, false);
}

void afterwards(const Making& m) {
    const auto say = [&](const char* key) { return m.words.say(key); };
    section(m, say("recovery"), m.words.say("recovery-every", hours(m.policy.recovery.vitals)));
    constexpr int rows = 9;
    grid(m,
         {{say("time"), 1},
          {say("hr"), 0.8},
          {say("bp"), 1.2},
          {say("spo2"), 0.8},
          {say("rr"), 0.8},
          {say("oxygen"), 0.9},
          {say("activity"), 0.9},
          {say("respiration"), 0.9},
          {say("circulation"), 0.9},
          {say("consciousness"), 0.9},
          {say("oxygen-score"), 0.9},
          {say("total"), 0.8},
          {say("nausea"), 0.8},
          {say("pain"), 0.8}},
         rows);
    section(m, say("discharge"));
    for (const auto& item : m.policy.lists.discharge_answers) {
        check(m, record::clean(item.words), true);
    }
    blanks(m, {{say("drink"), 1.5}, {say("home-with"), 2}, {say("time"), 1}});
    section(m, say("signatures"));
    for (const auto* key : {"sedation-part", "nursing-part", "physician-part"}) {
        blanks(m, {{say(key), 2.4}, {say("signature"), 2}, {say("time"), 1}});
    }
}

void frame(Canvas& c, const Policy& policy, const PaperWords& words, std::size_t page, std::size_t pages) {
    const double width = c.page().w - 2 * side;
    if (page > 1) {
        c.text(side, 14, width, words.say("title"), {7.6, Face::bold});
    }
    c.text(side, 14, width, words.say("page", fmt::format("{} / {}", page, pages)),
           {7.6, Face::bold, Align::right});
    c.text(side + width * 0.42, 14, 60, words.say("number"), {7.6});
    c.line(side + width * 0.42 + c.width(words.say("number"), {7.6}) + 3, 24, side + width * 0.8, 24, 0.5);
    const double y = c.page().h - foot_height;
    c.line(side, y, side + width, y, 0.4, 0.4);
    c.text(side, y + 2, width, record::clean(policy.clinic.name) + ". " + words.say("caution"),
           {6.2, Face::words, Align::left, 0.15});
}

}  // namespace

Expected<PaperWords> PaperWords::read(std::string_view json_text) {
    const auto json = parse_json(json_text);
    PaperWords words;
    if (!json || !json->is_object()) {
        return refuse("sheet-words", "assets/paper: a language file is no object of texts.",
                      "Install Brimline again.");
    }
    for (const auto key : needed) {
        const auto found = json->find(std::string{key});
        if (found == json->end() || !found->is_string()) {
            return refuse("sheet-words", fmt::format("assets/paper: \"{}\" is missing.", key),
                          "Install Brimline again.");
        }
        words.texts_[std::string{key}] = found->get<std::string>();
    }
    return words;
}

std::string PaperWords::say(std::string_view key) const {
    const auto found = texts_.find(key);
    return found == texts_.end() ? std::string{key} : found->second;
}

std::string PaperWords::say(std::string_view key, const std::string& n) const {
    auto text = say(key);
    const auto at = text.find("{n}");
    return at == std::string::npos ? text : text.replace(at, 3, n);
}

std::string downtime_pdf(const Policy& policy, const PaperWords& words, PageSize page, Instant created) {
    Canvas canvas{page, {words.say("title"), policy.clinic.name, "", "en", created}};
    Flow flow{top, page.h - foot_height - 4};
    const Making m{policy, words, canvas, flow};
    const double width = m.width();
    flow.piece(34, [=, title = words.say("title"), how = words.say("how")](Canvas& c, double y) {
        c.begin("H1");
        c.text(side, y, width, title, {14, Face::bold});
        c.end("H1");
        c.text(side, y + 20, width, how, {7.6});
    });
    arrival(m);
    flow.next_page();
    in_the_room(m);
    flow.next_page();
    balloon(m);
    flow.next_page();
    afterwards(m);
    flow.draw(canvas, [&](Canvas& c, std::size_t number) { frame(c, policy, words, number, flow.pages()); });
    return canvas.done();
}

}  // namespace brimline::print
