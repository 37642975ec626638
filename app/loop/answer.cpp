// Writing answers.
#include "app/loop/answer.h"

namespace brimline {
namespace {

void add_lists(Json& out, const Reply& answer) {
    out["raised"] = answer.raised;
    out["ended"] = answer.ended;
    out["opened"] = answer.opened;
    out["closed"] = answer.closed;
    if (!answer.proviso_ids.empty()) {
        out["proviso"] = answer.proviso_ids.front();
    }
}

void add_question(Json& out, const Asked& asked) {
    out["question"] = asked.question;
    if (!asked.id.empty()) {
        out["id"] = asked.id;
    }
    if (!asked.field.empty()) {
        out["field"] = asked.field;
    }
    out["say"] = asked.say;
}

}  // namespace

Json answer_json(const Reply& answer, int line) {
    Json out = Json::object();
    if (line > 0) {
        out["line"] = line;
    }
    constexpr std::array<const char*, 4> words{"recorded", "asked", "refused", "pending"};
    out["result"] = words[static_cast<std::size_t>(answer.result)];
    if (!answer.seqs.empty()) {
        out["seq"] = answer.seqs;
        out["hash"] = answer.hash;
    }
    if (answer.asked) {
        add_question(out, *answer.asked);
    }
    if (answer.refusal) {
        out["code"] = answer.refusal->code;
        out["say"] = answer.refusal->say;
        out["next"] = answer.refusal->next;
    }
    if (answer.result == Reply::Result::pending) {
        out["say"] = answer.say;
    } else if (!answer.seqs.empty() && !answer.refusal) {
        add_lists(out, answer);
    }
    return out;
}

}  // namespace brimline
