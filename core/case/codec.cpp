// Reading commands strictly, and events both ways.
#include "core/case/codec.h"

#include <algorithm>
#include <array>
#include <set>

#include "core/case/codec_checks.h"
#include "core/case/codec_fields.h"
#include "core/clinic/nearest.h"

namespace brimline {
namespace codec {

std::string nearest_hint(std::string_view word, const std::vector<std::string>& names) {
    const auto near = nearest_id(word, names);
    return near.empty() ? std::string{} : fmt::format("; did you mean {}?", near);
}

namespace {

constexpr std::array<std::string_view, 9> envelope{"at",  "happened", "by",   "said_by", "case",
                                                   "how", "do",       "sure", "expect"};

template <class V, std::size_t I = 0, class F>
void each_alternative(F&& f) {
    if constexpr (I < std::variant_size_v<V>) {
        f(std::type_identity<std::variant_alternative_t<I, V>>{});
        each_alternative<V, I + 1>(f);
    }
}

bool in_envelope(std::string_view key) {
    return std::find(envelope.begin(), envelope.end(), key) != envelope.end();
}

template <class T>
void check_known(const Json& object, Correct* correct, Fault& fault) {
    const auto names = names_of_fields<T>();
    Json changes = Json::object();
    for (const auto& [key, value] : object.items()) {
        if (in_envelope(key) || std::find(names.begin(), names.end(), key) != names.end()) {
            continue;
        }
        if (correct != nullptr &&
            std::find(field_names().begin(), field_names().end(), key) != field_names().end()) {
            changes[key] = value;
            continue;
        }
        auto all = names;
        all.insert(all.end(), envelope.begin(), envelope.end());
        fault.set(key, fmt::format("is not a field of {}{}", T::spec.name, nearest_hint(key, all)));
    }
    if (correct != nullptr) {
        correct->changes = changes.dump();
    }
}

/// Reads the statement named `name` out of the whole line.
std::optional<Statement> read_statement(const std::string& name, const Json& object, Fault& fault) {
    std::optional<Statement> found;
    each_alternative<AnyStatement>([&]<class T>(std::type_identity<T>) {
        if (found || T::spec.name != name) {
            return;
        }
        T says{};
        if constexpr (std::is_same_v<T, Correct>) {
            check_known<T>(object, &says, fault);
        } else {
            check_known<T>(object, nullptr, fault);
        }
        read_fields(object, "", says, fault);
        found = std::move(says);
    });
    return found;
}

bool has_own_how(const Statement& says) {
    return std::holds_alternative<Leaflet>(says) || std::holds_alternative<Card>(says);
}
/// People, recalls and entries of the register are named by themselves.
bool needs_case(const Statement& says) {
    return std::visit(
        [](const auto& s) {
            using T = std::decay_t<decltype(s)>;
            constexpr bool desk = std::is_same_v<T, AddPerson> || std::is_same_v<T, SetPin> ||
                                  std::is_same_v<T, Recall> || std::is_same_v<T, PersonLeft> ||
                                  std::is_same_v<T, Badge>;
            constexpr bool entry = std::is_same_v<T, Call> || std::is_same_v<T, Flag> ||
                                   std::is_same_v<T, CloseEntry> || std::is_same_v<T, LostToFollowUp>;
            return !desk && !entry;
        },
        says);
}

void read_envelope(const Json& object, ReadCommand& out, Fault& fault) {
    const auto take = [&](const char* name, auto& member) {
        if (const auto it = object.find(name); it != object.end()) {
            read(*it, name, member, fault);
            return true;
        }
        return false;
    };
    if (!take("by", out.command.by)) {
        fault.set("by", "is missing: the id of who enters this");
    }
    out.has_at = take("at", out.command.at);
    take("happened", out.command.happened);
    take("said_by", out.command.said_by);
    take("sure", out.command.sure);
    take("expect", out.expect);
    if (!has_own_how(out.command.says)) {
        take("how", out.command.how);
    }
    if (!take("case", out.command.case_name) && needs_case(out.command.says)) {
        fault.set("case", "is missing: the name of the case");
    }
    if (needs_case(out.command.says) && object.contains("case") && out.command.case_name.empty()) {
        fault.set("case", "a name of at least one character is needed");
    }
    if (out.expect && *out.expect != "recorded" && *out.expect != "asked" && *out.expect != "refused" &&
        out.expect->rfind("refused:", 0) != 0) {
        fault.set("expect", "allowed are recorded, asked, refused, refused:CODE");
    }
}

}  // namespace
}  // namespace codec

tl::expected<ReadCommand, Malformed> read_command(const Json& object) {
    if (!object.is_object()) {
        return tl::unexpected{Malformed{"", "a line is one JSON object in braces"}};
    }
    const auto verb = object.find("do");
    if (verb == object.end() || !verb->is_string()) {
        return tl::unexpected{Malformed{"do", "is missing: the name of a command"}};
    }
    constexpr std::size_t longest_entry = 4000;
    codec::Fault fault;
    fault.longest_text = longest_entry;
    ReadCommand out;
    auto says = codec::read_statement(verb->get<std::string>(), object, fault);
    if (!says) {
        return tl::unexpected{
            Malformed{"do", fmt::format("\"{}\" is not a command{}", verb->get<std::string>(),
                                        codec::nearest_hint(verb->get<std::string>(), command_names()))}};
    }
    out.command.says = std::move(*says);
    codec::read_envelope(object, out, fault);
    codec::check_whole(out.command.says, fault);
    if (fault.first) {
        return tl::unexpected{*fault.first};
    }
    return out;
}

tl::expected<Json, Malformed> parse_json(std::string_view text) {
    std::vector<std::set<std::string>> keys;
    std::string twice;
    const auto watch = [&](int, nlohmann::detail::parse_event_t event, Json& parsed) {
        using Step = nlohmann::detail::parse_event_t;
        if (event == Step::object_start) {
            keys.emplace_back();
        } else if (event == Step::object_end) {
            keys.pop_back();
        } else if (event == Step::key && !keys.back().insert(parsed.get<std::string>()).second) {
            twice = parsed.get<std::string>();
        }
        return true;
    };
    try {
        Json value = Json::parse(text, watch);
        if (!twice.empty()) {
            return tl::unexpected{Malformed{twice, "stands twice in one object; once is allowed"}};
        }
        return value;
    } catch (const Json::exception& problem) {
        const std::string what = problem.what();
        if (what.find("UTF-8") != std::string::npos) {
            return tl::unexpected{Malformed{"", "is not valid UTF-8; write the file as UTF-8"}};
        }
        return tl::unexpected{
            Malformed{"", "is not one JSON object; check quotes, commas, braces and numbers"}};
    }
}

tl::expected<void, Malformed> resolve_lines(Command& command,
                                            const std::map<int, std::int64_t>& first_seq_of_line) {
    const auto resolve = [&](const char* field, EntryRef& ref) -> tl::expected<void, Malformed> {
        if (!ref.line) {
            return {};
        }
        const auto found = first_seq_of_line.find(*ref.line);
        if (found == first_seq_of_line.end()) {
            return tl::unexpected{Malformed{
                field, fmt::format("line {} of this file recorded nothing before this line", *ref.line)}};
        }
        ref = EntryRef{found->second, std::nullopt};
        return {};
    };
    if (auto* end = std::get_if<AirwayEventEnd>(&command.says)) {
        return resolve("event", end->event);
    }
    if (auto* correct = std::get_if<Correct>(&command.says); correct != nullptr && correct->entry) {
        return resolve("entry", *correct->entry);
    }
    return {};
}

std::string payload_of(const Stamp& stamp, const Event& event) {
    Json payload = fields_json(event);
    if (stamp.said_by) {
        payload["@said_by"] = *stamp.said_by;
    }
    if (stamp.happened != stamp.at) {
        payload["@happened"] = codec::write(stamp.happened);
    }
    if (stamp.how != How::tap) {
        payload["@how"] = std::string{name_of(stamp.how)};
    }
    if (stamp.script) {
        payload["@script"] = true;
    }
    if (stamp.practice) {
        payload["@practice"] = true;
    }
    return payload.dump();
}

tl::expected<Event, Malformed> read_event(std::string_view kind, std::string_view payload, Stamp& stamp) {
    const auto parsed = parse_json(payload);
    if (!parsed || !parsed->is_object()) {
        return tl::unexpected{Malformed{"payload", "is not a JSON object"}};
    }
    codec::Fault fault;
    stamp.happened = stamp.at;
    const auto take = [&](const char* name, auto& member) {
        if (const auto it = parsed->find(name); it != parsed->end()) {
            codec::read(*it, name, member, fault);
        }
    };
    take("@said_by", stamp.said_by);
    take("@happened", stamp.happened);
    take("@how", stamp.how);
    take("@script", stamp.script);
    take("@practice", stamp.practice);
    std::optional<Event> event;
    codec::each_alternative<AnyEvent>([&]<class T>(std::type_identity<T>) {
        if (!event && T::spec.name == kind) {
            T value{};
            codec::read_fields(*parsed, "", value, fault);
            event = std::move(value);
        }
    });
    if (!event) {
        return tl::unexpected{
            Malformed{"kind", fmt::format("\"{}\" is not a kind of event that this version knows", kind)}};
    }
    if (fault.first) {
        return tl::unexpected{*fault.first};
    }
    return std::move(*event);
}

std::string entries_text(const std::vector<Recorded>& entries) {
    Json list = Json::array();
    for (const auto& entry : entries) {
        const auto& s = entry.stamp;
        list.push_back(Json{{"seq", s.seq},
                            {"at", codec::write(s.at)},
                            {"tick_us", s.tick_us},
                            {"boot", s.boot},
                            {"by", s.by},
                            {"role", std::string{name_of(s.role)}},
                            {"kind", std::string{kind_of(entry.event)}},
                            {"payload", payload_of(s, entry.event)}});
    }
    return list.dump();
}

tl::expected<std::vector<Recorded>, Malformed> read_entries(std::string_view text) {
    const auto list = parse_json(text);
    if (!list || !list->is_array()) {
        return tl::unexpected{Malformed{"entries", "is not a JSON list"}};
    }
    std::vector<Recorded> entries;
    for (const auto& one : *list) {
        codec::Fault fault;
        Stamp stamp;
        std::string kind, payload;
        const auto take = [&](const char* name, auto& member) {
            codec::read(one.value(name, Json{}), name, member, fault);
        };
        take("seq", stamp.seq);
        take("at", stamp.at);
        take("tick_us", stamp.tick_us);
        take("boot", stamp.boot);
        take("by", stamp.by);
        take("role", stamp.role);
        take("kind", kind);
        take("payload", payload);
        auto event = read_event(kind, payload, stamp);
        if (fault.first || !event) {
            return tl::unexpected{fault.first ? *fault.first : event.error()};
        }
        entries.emplace_back(std::move(stamp), std::move(*event));
    }
    return entries;
}

Json fields_json(const Event& event) {
    return std::visit([](const auto& e) { return codec::write_fields(e); }, event);
}

tl::expected<Event, Malformed> with_fields(const Event& event, const Json& changes) {
    return std::visit(
        [&](const auto& e) -> tl::expected<Event, Malformed> {
            using T = std::decay_t<decltype(e)>;
            codec::Fault fault;
            const auto names = codec::names_of_fields<T>();
            Json merged = codec::write_fields(e);
            for (const auto& [key, value] : changes.items()) {
                if (std::find(names.begin(), names.end(), key) == names.end()) {
                    fault.set(key, fmt::format("is not a field of the entry that is corrected ({}){}",
                                               T::spec.name, codec::nearest_hint(key, names)));
                }
                merged[key] = value;
            }
            T out{};
            codec::read_fields(merged, "", out, fault);
            if (fault.first) {
                return tl::unexpected{*fault.first};
            }
            return Event{std::move(out)};
        },
        event);
}

std::optional<Malformed> fault_of_whole(const Statement& says) {
    codec::Fault fault;
    codec::check_whole(says, fault);
    return fault.first;
}

const std::vector<std::string>& command_names() {
    static const std::vector<std::string> names = [] {
        std::vector<std::string> all;
        codec::each_alternative<AnyStatement>(
            [&]<class T>(std::type_identity<T>) { all.emplace_back(T::spec.name); });
        return all;
    }();
    return names;
}

const std::vector<std::string>& field_names() {
    static const std::vector<std::string> names = [] {
        std::set<std::string> all;
        codec::each_alternative<AnyStatement>([&]<class T>(std::type_identity<T>) {
            for (auto& name : codec::names_of_fields<T>()) {
                all.insert(std::move(name));
            }
        });
        return std::vector<std::string>(all.begin(), all.end());
    }();
    return names;
}

}  // namespace brimline
