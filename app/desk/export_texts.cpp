// Making the texts of one case.
#include "app/desk/export_texts.h"

#include <fmt/format.h>

#include "app/desk/prints.h"
#include "core/record/fhir.h"
#include "core/record/text.h"
#include "core/store/minisign.h"

namespace brimline::desk {
namespace {

/// A sealed record keeps the policy under which it was sealed, whatever was adopted since.
const Policy& policy_of(const CaseFile& file, const Archive& archive) {
    const auto& current = archive.in_force().policy;
    return file.told().sealed ? file.desk.policy_at(file.told().sealed->stamp.seq, current) : current;
}

/// The case up to the last entry that the sealed text tells.
CaseState as_the_seal_tells(const CaseFile& file) {
    std::vector<Recorded> told;
    for (const auto& row : file.rows) {
        auto recorded = recorded_of(row);
        if (recorded && row.case_seq <= file.sealed->through_case_seq) {
            told.push_back(std::move(*recorded));
        }
    }
    return fold(told);
}

Instant told_until(const CaseState& state) {
    Instant latest{};
    for (const auto& kept : state.history) {
        latest = std::max(latest, kept.first.stamp.at);
    }
    return latest;
}

bool fit_for_a_name(char c) {
    return (c >= '0' && c <= '9') || (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') || c == '-' || c == '_';
}

}  // namespace

std::string event_line(const store::StoredEvent& row, std::string_view case_name) {
    auto payload = parse_json(row.payload).value_or(Json{});
    Json line = Json::object();
    line["seq"] = row.seq;
    line["kind"] = row.kind;
    line["hash"] = store::hex(row.hash);
    line["utc_us"] = row.utc.in_us();
    line["tick_us"] = row.tick_us;
    line["boot"] = store::hex(row.boot);
    line["case"] = case_name.empty() ? Json{} : Json(std::string{case_name});
    line["by"] = row.person;
    line["role"] = row.role;
    if (payload.is_object() && payload.contains("@said_by")) {
        line["said_by"] = payload["@said_by"];
    }
    line["payload"] = std::move(payload);
    return line.dump(-1, ' ', false, Json::error_handler_t::replace) + "\n";
}

std::string events_text(const CaseFile& file) {
    std::string text;
    for (const auto& row : file.rows) {
        text += event_line(row, file.name);
    }
    return text;
}

std::string record_body(const CaseFile& file, Archive& archive) {
    if (!file.sealed) {
        return record_text(file.now(), file.desk, archive.in_force().policy, archive.in_force().zone, "");
    }
    const auto& row = *file.sealed;
    return fmt::format("{}\nSealed {}\nhash      {}\nsignature {}\nkey       {}\nfile key  {}\n", row.body,
                       row.number, store::hex(row.body_hash), store::hex(row.signature),
                       store::hex(file.seal_key), store::minisign_key(archive.journal().kiosk().public_key));
}

Expected<std::string> record_pdf(const CaseFile& file, const Archive& archive) {
    const auto& in_force = archive.in_force();
    const auto page = page_size("", in_force.policy);
    if (!page) {
        return tl::unexpected{page.error()};
    }
    const auto told = file.sealed ? as_the_seal_tells(file) : file.now();
    return record_pdf_of(
        RecordSource{told, file.now(), file.desk, file.desk, policy_of(file, archive), in_force.policy,
                     in_force.zone, file.sealed ? &*file.sealed : nullptr, store::hex(file.seal_key)},
        *page);
}

std::string added_text(const CaseFile& file, const Archive& archive) {
    return file.sealed ? addenda_text(file.now(), file.desk, archive.in_force().zone) : "";
}

std::string fhir_text(const CaseFile& file, Archive& archive) {
    std::string signature;
    if (file.sealed) {
        const auto head = head_of(file);
        const auto name = file_stem(file) + ".txt";
        signature =
            signature_of(record_body(file, archive), comment_of(name, file, head), archive).value_or("");
    }
    return fhir_document({file.told(), file.desk, policy_of(file, archive), archive.in_force().zone,
                          program_version, signature});
}

std::string fhir_addendum_text(const CaseFile& file, const Archive& archive, std::size_t which) {
    return fhir_addendum(
        {file.now(), file.desk, policy_of(file, archive), archive.in_force().zone, program_version, ""},
        which);
}

std::string table_lines(CsvTable table, const CaseFile& file, const Archive& archive, LocalDate on) {
    return csv_lines(table, {file.now(), file.desk, archive.in_force().policy, archive.in_force().zone, on});
}

std::string file_stem(const CaseFile& file) {
    std::string stem = file.sealed ? file.sealed->number : "case-" + file.name;
    for (char& c : stem) {
        c = fit_for_a_name(c) ? c : '_';
    }
    // Two names may become one by that; the id of the case keeps them apart.
    return file.sealed || stem == "case-" + file.name ? stem : stem + "-" + file.now().id.substr(0, 8);
}

std::string trusted_comment(const TrustedComment& is) {
    return fmt::format("timestamp:{}\tfile:{}\trecord:{}\tseal:{}", is.told_until.in_us() / 1'000'000,
                       is.file_name, is.record.empty() ? "none" : is.record, is.head.substr(0, 16));
}

TrustedComment comment_of(std::string_view file_name, const CaseFile& file, const std::string& head) {
    return {file_name, file.sealed ? std::string_view{file.sealed->number} : std::string_view{},
            told_until(file.told()), head};
}

std::string head_of(const CaseFile& file) {
    return file.sealed         ? store::hex(file.sealed->head)
           : file.rows.empty() ? ""
                               : store::hex(file.rows.back().hash);
}

std::optional<std::string> signature_of(std::string_view text, const TrustedComment& comment,
                                        Archive& archive) {
    store::Digest digest;
    digest.add(text);
    return store::minisign_file(digest.finish(), archive.journal().kiosk().public_key,
                                trusted_comment(comment),
                                [&](std::string_view bytes) { return archive.journal().sign(bytes); });
}

}  // namespace brimline::desk
