// The heavy members of events and statements, compiled once: every one visits some ninety types.
#include "core/case/event.h"

namespace brimline {

Event::Event() = default;
Event::Event(const Event&) = default;
Event::Event(Event&&) noexcept = default;
Event& Event::operator=(const Event&) = default;
Event& Event::operator=(Event&&) noexcept = default;
Event::~Event() = default;

Recorded::Recorded() = default;
Recorded::Recorded(Stamp when, Event what) : stamp{std::move(when)}, event{std::move(what)} {}
Recorded::Recorded(const Recorded&) = default;
Recorded::Recorded(Recorded&&) noexcept = default;
Recorded& Recorded::operator=(const Recorded&) = default;
Recorded& Recorded::operator=(Recorded&&) noexcept = default;
Recorded::~Recorded() = default;

Statement::Statement() = default;
Statement::Statement(const Statement&) = default;
Statement::Statement(Statement&&) noexcept = default;
Statement& Statement::operator=(const Statement&) = default;
Statement& Statement::operator=(Statement&&) noexcept = default;
Statement::~Statement() = default;

std::string_view kind_of(const Event& event) {
    return std::visit([](const auto& e) { return std::decay_t<decltype(e)>::spec.name; }, event);
}

const Spec& spec_of(const Statement& says) {
    return std::visit([](const auto& s) -> const Spec& { return std::decay_t<decltype(s)>::spec; }, says);
}

}  // namespace brimline
