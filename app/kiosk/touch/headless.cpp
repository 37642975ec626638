// The headless driver: a Dear ImGui context, the input queue and simulated time.
#include "app/kiosk/touch/headless.h"

#include <fmt/format.h>

#include <set>

#include "app/kiosk/touch/faults.h"
#include "app/kiosk/touch/text_draft.h"

namespace brimline::touch {

namespace {

constexpr Seconds finger_down = 0.080;  // how long a finger stays
constexpr Seconds finger_away = 0.120;  // and how long until the next one
constexpr Seconds first_moment = 1000;  // a kiosk is never at zero

/// A drawing function as an application without pedals and scans.
class Sketch : public Application {
public:
    explicit Sketch(std::function<void(Glass&)> draw) : draw_{std::move(draw)} {}
    Drawn draw(Glass& glass) override {
        draw_(glass);
        return Drawn::final;
    }
    void on_pedal(const PedalPress&) override {}
    void on_scan(const std::string&, Seconds) override {}
    Seconds next_wake(Seconds) override { return -1; }

private:
    std::function<void(Glass&)> draw_;
};

/// The fonts are drawn once and shared by every driver of the program: a test makes hundreds of them.
struct Letters {
    ImFontAtlas atlas;
    Type type;

    Letters() {
        auto loaded = Type::load(atlas);
        if (!loaded) {
            throw std::runtime_error{loaded.error()};
        }
        type = std::move(*loaded);
    }
};

Letters& letters() {
    static Letters shared;
    return shared;
}

ImGuiContext* new_context() {
    ImGuiContext* context = ImGui::CreateContext(&letters().atlas);
    ImGui::SetCurrentContext(context);
    return context;
}

char32_t code_point(std::string_view letter) {
    const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(letter[i]); };
    if (letter.size() == 1) {
        return byte(0);
    }
    char32_t code =
        letter.size() == 2 ? byte(0) & 0x1FU : (letter.size() == 3 ? byte(0) & 0x0FU : byte(0) & 0x07U);
    for (std::size_t i = 1; i < letter.size(); ++i) {
        code = (code << 6U) | (byte(i) & 0x3FU);
    }
    return code;
}

}  // namespace

struct Headless::World {
    World(Application* given, std::unique_ptr<Application> own, const Words& words, Size glass_size)
        : context{new_context()},
          owned{std::move(own)},
          application{given != nullptr ? given : owned.get()},
          size{glass_size},
          glass{letters().type, words} {
        ImGui::GetIO().IniFilename = nullptr;
        ImGui::GetIO().BackendFlags |= ImGuiBackendFlags_RendererHasVtxOffset;
    }
    ~World() { ImGui::DestroyContext(context); }
    World(const World&) = delete;
    World& operator=(const World&) = delete;

    ImGuiContext* context;
    std::unique_ptr<Application> owned;
    Application* application;
    Size size;
    Glass glass;
    InputQueue queue;
    Seconds now{first_moment};
    Point finger{};
    std::set<std::string> faults;
};

Headless::Headless(Application& application, const Words& words, Size size)
    : world_{std::make_unique<World>(&application, nullptr, words, size)} {
    frame();
}

Headless::Headless(std::function<void(Glass&)> draw, const Words& words, Size size)
    : world_{std::make_unique<World>(nullptr, std::make_unique<Sketch>(std::move(draw)), words, size)} {
    frame();
}

Headless::~Headless() = default;

void Headless::settle() {
    World& w = *world_;
    ImGui::SetCurrentContext(w.context);
    do {
        run_frame(*w.application, w.glass, w.queue.next(w.now), w.size);
        for (const std::string& fault : layout_faults(w.glass.registry())) {
            w.faults.insert(fault);
        }
    } while (w.queue.more());
}

void Headless::frame() { settle(); }

void Headless::pass(Seconds seconds) {
    World& w = *world_;
    const Seconds end = w.now + seconds;
    for (;;) {
        Seconds next = end;
        for (const Seconds wanted : {w.application->next_wake(w.now), w.queue.next_wake()}) {
            if (wanted > w.now && wanted < next) {
                next = wanted;
            }
        }
        w.now = next;
        settle();
        if (next >= end) {
            return;
        }
    }
}

const Target& Headless::reachable(std::string_view name) const {
    const Registry& registry = world_->glass.registry();
    const Target* found = nullptr;
    for (const Target& target : registry.targets()) {
        if (target.name == name && found != nullptr) {
            throw CannotTouch{fmt::format("{} stands twice", name)};
        }
        found = target.name == name ? &target : found;
    }
    if (found == nullptr) {
        std::string names;
        for (const Target& target : registry.targets()) {
            names += " " + target.name;
        }
        throw CannotTouch{fmt::format("{} is not on the glass; there are:{}", name, names)};
    }
    if (!found->enabled) {
        throw CannotTouch{fmt::format("{} takes no touch now", name)};
    }
    if (const Target* on_top = registry.at(found->rect.middle()); on_top != found) {
        throw CannotTouch{
            fmt::format("{} is covered by {}", name, on_top == nullptr ? "nothing" : on_top->name)};
    }
    return *found;
}

void Headless::tap(std::string_view name) {
    const std::string place = reachable(name).group;
    // A hair longer than the dead time, so that rounding never decides.
    if (const Seconds wait = world_->glass.dead_for(place); wait > 0) {
        pass(wait + 0.001);
    }
    hasty_tap(name);
}

void Headless::hasty_tap(std::string_view name) {
    press(name);
    pass(finger_down);
    release();
    pass(finger_away);
}

void Headless::press(std::string_view name) {
    const Point at = reachable(name).rect.middle();
    world_->finger = at;
    world_->queue.move(at, world_->now);
    world_->queue.finger(at, true, world_->now);
    settle();
}

void Headless::release() {
    world_->queue.finger(world_->finger, false, world_->now);
    settle();
}

void Headless::move(Point at) {
    world_->finger = at;
    world_->queue.move(at, world_->now);
    settle();
}

void Headless::tap_at(Point at) {
    world_->finger = at;
    world_->queue.finger(at, true, world_->now);
    settle();
    pass(finger_down);
    release();
    pass(finger_away);
}

void Headless::key(Key key) {
    world_->queue.key(key, true, world_->now);
    world_->queue.key(key, false, world_->now);
    pass(finger_away);
}

void Headless::type(std::string_view text) {
    for (const std::string& letter : letters_of(text)) {
        world_->queue.character(code_point(letter), world_->now);
        pass(finger_away);
    }
}

void Headless::scan(std::string_view characters) {
    for (const char c : characters) {
        world_->now += 0.001;
        if (c == '\x1d') {
            world_->queue.key(Key::group_separator, true, world_->now);
        } else {
            world_->queue.character(static_cast<unsigned char>(c), world_->now);
        }
    }
    world_->now += 0.001;
    world_->queue.key(Key::enter, true, world_->now);
    settle();
    pass(finger_away);
}

void Headless::pedal(Pedal pedal) {
    const Key key = pedal == Pedal::assistant ? Key::f13 : Key::f14;
    world_->queue.key(key, true, world_->now);
    settle();
    pass(finger_down);
    world_->queue.key(key, false, world_->now);
    settle();
    pass(finger_away);
}

bool Headless::has(std::string_view name) const { return registry().find(name) != nullptr; }

bool Headless::is_checked(std::string_view name) const { return reachable(name).checked; }

std::string Headless::text_of(std::string_view slot) const {
    const Slot* found = registry().find_slot(slot);
    if (found == nullptr) {
        throw CannotTouch{fmt::format("no text {} on the glass; there are:\n{}", slot, all_text())};
    }
    return found->text;
}

bool Headless::shows(std::string_view text) const {
    for (const Slot& slot : registry().slots()) {
        if (slot.text == text) {
            return true;
        }
    }
    return false;
}

std::string Headless::all_text() const {
    std::string all;
    for (const Slot& slot : registry().slots()) {
        all += fmt::format("{}: {}\n", slot.name, slot.text);
    }
    return all;
}

std::vector<std::string> Headless::faults() const {
    std::vector<std::string> all{world_->faults.begin(), world_->faults.end()};
    const auto& missing = world_->glass.words().missing();
    all.insert(all.end(), missing.begin(), missing.end());
    return all;
}

std::vector<std::string> Headless::faults_now() const { return layout_faults(registry()); }

Picture Headless::picture() const {
    ImGui::SetCurrentContext(world_->context);
    return paint(*ImGui::GetDrawData(), *ImGui::GetIO().Fonts);
}

const Registry& Headless::registry() const { return world_->glass.registry(); }

Glass& Headless::glass() { return world_->glass; }

InputQueue& Headless::queue() { return world_->queue; }

Seconds Headless::now() const { return world_->now; }

}  // namespace brimline::touch
