// Reading of checked inputs.
#include "app/desk/rules/inputs.h"

#include "app/desk/rules/fields.h"

namespace brimline::worked {
namespace {

const JsonNode& empty_object() {
    static const JsonNode node = [] {
        JsonNode object;
        object.kind = JsonNode::Kind::object;
        return object;
    }();
    return node;
}

std::int64_t tenths(const Decimal& value) { return value.whole(10).value_or(0); }

}  // namespace

const JsonNode* Inputs::find(std::string_view name) const {
    const JsonNode* node = object_->find(name);
    return node == nullptr || node->is(JsonNode::Kind::null) ? nullptr : node;
}

std::string Inputs::text(std::string_view name) const {
    const JsonNode* node = find(name);
    return node == nullptr ? std::string{} : node->text;
}

std::optional<bool> Inputs::maybe_truth(std::string_view name) const {
    const JsonNode* node = find(name);
    return node == nullptr ? std::nullopt : std::optional{node->truth};
}

bool Inputs::truth(std::string_view name, bool otherwise) const {
    return maybe_truth(name).value_or(otherwise);
}

std::optional<Decimal> Inputs::maybe_decimal(std::string_view name) const {
    const JsonNode* node = find(name);
    return node == nullptr ? std::nullopt : decimal_of(*node);
}

Decimal Inputs::decimal(std::string_view name, Decimal otherwise) const {
    return maybe_decimal(name).value_or(otherwise);
}

std::optional<int> Inputs::maybe_whole(std::string_view name) const {
    const auto value = maybe_decimal(name);
    return value ? std::optional{static_cast<int>(value->whole().value_or(0))} : std::nullopt;
}

int Inputs::whole(std::string_view name, int otherwise) const {
    return maybe_whole(name).value_or(otherwise);
}

Millilitres Inputs::ml(std::string_view name, Millilitres otherwise) const {
    const auto value = maybe_decimal(name);
    return value ? Millilitres::of_tenths(tenths(*value)) : otherwise;
}
Kilograms Inputs::kg(std::string_view name) const { return Kilograms::of_tenths(tenths(decimal(name))); }
Centimetres Inputs::cm(std::string_view name) const { return Centimetres::of_tenths(tenths(decimal(name))); }

std::optional<Written> Inputs::written(std::string_view name) const {
    const JsonNode* node = find(name);
    return node == nullptr ? std::nullopt : read_written(node->text);
}

std::optional<LocalDate> Inputs::maybe_date(std::string_view name) const {
    const auto time = written(name);
    return time ? time->date : std::nullopt;
}

LocalDate Inputs::date(std::string_view name) const {
    return maybe_date(name).value_or(LocalDate{std::chrono::sys_days{}});
}

std::optional<Instant> Inputs::maybe_utc(std::string_view name) const {
    const auto time = written(name);
    return time ? std::optional{time->as_utc()} : std::nullopt;
}

Instant Inputs::utc(std::string_view name) const { return maybe_utc(name).value_or(Instant{}); }

Inputs Inputs::within(std::string_view name) const {
    const JsonNode* node = find(name);
    return {node == nullptr ? empty_object() : *node, *house_, *zones_};
}

std::vector<Inputs> Inputs::objects(std::string_view name) const {
    std::vector<Inputs> found;
    if (const JsonNode* node = find(name)) {
        for (const JsonNode& item : node->items) {
            found.emplace_back(item, *house_, *zones_);
        }
    }
    return found;
}

std::vector<std::string> Inputs::texts(std::string_view name) const {
    std::vector<std::string> found;
    if (const JsonNode* node = find(name)) {
        for (const JsonNode& item : node->items) {
            found.push_back(item.text);
        }
    }
    return found;
}

std::vector<Decimal> Inputs::decimals(std::string_view name) const {
    std::vector<Decimal> found;
    if (const JsonNode* node = find(name)) {
        for (const JsonNode& item : node->items) {
            found.push_back(decimal_of(item).value_or(Decimal{}));
        }
    }
    return found;
}

std::vector<int> Inputs::wholes(std::string_view name) const {
    std::vector<int> found;
    for (const Decimal& value : decimals(name)) {
        found.push_back(static_cast<int>(value.whole().value_or(0)));
    }
    return found;
}

std::vector<LocalDate> Inputs::dates(std::string_view name) const {
    std::vector<LocalDate> found;
    for (const std::string& text : texts(name)) {
        if (const auto time = read_written(text); time && time->date) {
            found.push_back(*time->date);
        }
    }
    return found;
}

std::vector<std::vector<Written>> Inputs::spans(std::string_view name) const {
    std::vector<std::vector<Written>> found;
    if (const JsonNode* node = find(name)) {
        for (const JsonNode& list : node->items) {
            auto& span = found.emplace_back();
            for (const JsonNode& item : list.items) {
                if (const auto time = read_written(item.text)) {
                    span.push_back(*time);
                }
            }
        }
    }
    return found;
}

std::vector<std::string> Inputs::names() const {
    std::vector<std::string> found;
    for (const JsonMember& member : object_->members) {
        found.push_back(member.name);
    }
    return found;
}

}  // namespace brimline::worked
