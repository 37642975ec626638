// Opens the window, turns its callbacks into input and runs the loop.
#include "app/kiosk/window.h"

#include <glad/gl.h>
#define GLFW_INCLUDE_NONE
#include <GLFW/glfw3.h>
#include <fmt/format.h>

#include <algorithm>
#include <atomic>
#include <chrono>
#include <cmath>
#include <optional>

#include "app/kiosk/gl_renderer.h"

namespace brimline::kiosk {

using touch::Key;
using touch::Point;
using touch::Seconds;
using touch::Size;

namespace {

constexpr Seconds longest_sleep = 60;  // a clock that was set is noticed after a minute at the latest

/// The page in the window: its own size when it fits, else scaled alike in both directions and centred.
Viewport viewport_for(int width, int height, Size page) {
    const float across = static_cast<float>(width) / page.w;
    const float down = static_cast<float>(height) / page.h;
    Viewport viewport;
    viewport.scale = std::min(across, down);
    viewport.width = static_cast<int>(std::lround(page.w * viewport.scale));
    viewport.height = static_cast<int>(std::lround(page.h * viewport.scale));
    viewport.x = (width - viewport.width) / 2;
    viewport.y = (height - viewport.height) / 2;
    viewport.window_height = height;
    return viewport;
}

Size page_for(int width, int height) { return width >= height ? Size{1280, 800} : Size{800, 1280}; }

Key key_of(int key, int modifiers) {
    switch (key) {
        case GLFW_KEY_ENTER:
            return Key::enter;
        case GLFW_KEY_KP_ENTER:
            return Key::keypad_enter;
        case GLFW_KEY_TAB:
            return Key::tab;
        case GLFW_KEY_ESCAPE:
            return Key::escape;
        case GLFW_KEY_BACKSPACE:
            return Key::backspace;
        case GLFW_KEY_F8:
            return Key::f8;
        case GLFW_KEY_F13:
            return Key::f13;
        case GLFW_KEY_F14:
            return Key::f14;
        case GLFW_KEY_RIGHT_BRACKET:
            return (modifiers & GLFW_MOD_CONTROL) != 0 ? Key::group_separator : Key::none;
        default:
            return Key::none;
    }
}

std::string glfw_says(const char* what) {
    const char* why = nullptr;
    glfwGetError(&why);
    return fmt::format("{} ({}).", what, why == nullptr ? "no reason given" : why);
}

}  // namespace

/// Everything behind the window; the callbacks reach it through GLFW's user pointer.
struct WindowState {
    WindowState() = default;
    WindowState(const WindowState&) = delete;
    WindowState& operator=(const WindowState&) = delete;
    ~WindowState() {
        renderer.reset();
        if (window != nullptr) {
            glfwDestroyWindow(window);
        }
        if (context != nullptr) {
            ImGui::DestroyContext(context);
        }
        glfwTerminate();
    }

    /// Places in the window become places on the page.
    [[nodiscard]] Point on_page(double x, double y) const {
        const double left = x * pixels_per_unit - viewport.x;
        const double top = y * pixels_per_unit - viewport.y;
        const auto scale = static_cast<double>(viewport.scale);
        return {static_cast<float>(left / scale), static_cast<float>(top / scale)};
    }

    GLFWwindow* window{nullptr};
    ImGuiContext* context{nullptr};
    std::optional<GlRenderer> renderer;
    std::optional<touch::Type> type;
    std::optional<touch::Glass> glass;
    touch::InputQueue queue;
    Size page;
    Viewport viewport;
    double pixels_per_unit{1};
    Point last{};
    bool needs_drawing{true};
    Seconds listened_until{0};   ///< the end of the last look at the events
    Seconds listening_since{0};  ///< the beginning of the present one
    std::atomic<bool> woken{false};
};

namespace {

WindowState& state_of(GLFWwindow* window) {
    return *static_cast<WindowState*>(glfwGetWindowUserPointer(window));
}

// The position comes from the last move and not from glfwGetCursorPos, which tells where the pointer is by
// now.
void on_move(GLFWwindow* window, double x, double y) {
    WindowState& state = state_of(window);
    state.last = state.on_page(x, y);
    state.queue.move(state.last, Window::now());
}

/// GLFW tells no event's own time. What is there the moment we look may have waited since we looked last.
Seconds earliest_for(const WindowState& state, Seconds delivered) {
    constexpr Seconds at_once = 0.002;
    return delivered - state.listening_since < at_once ? state.listened_until : delivered;
}

void on_button(GLFWwindow* window, int button, int action, int /*modifiers*/) {
    if (button != GLFW_MOUSE_BUTTON_LEFT) {
        return;
    }
    WindowState& state = state_of(window);
    const Seconds delivered = Window::now();
    state.queue.add({.kind = touch::Input::Kind::finger,
                     .at = state.last,
                     .down = action == GLFW_PRESS,
                     .time = delivered,
                     .earliest = earliest_for(state, delivered)});
}

void on_key(GLFWwindow* window, int key, int /*scan_code*/, int action, int modifiers) {
    const Key known = key_of(key, modifiers);
    const bool repeats = action == GLFW_REPEAT && known != Key::backspace;
    if (known != Key::none && !repeats) {
        WindowState& state = state_of(window);
        const Seconds delivered = Window::now();
        state.queue.add({.kind = touch::Input::Kind::key,
                         .down = action != GLFW_RELEASE,
                         .key = known,
                         .time = delivered,
                         .earliest = earliest_for(state, delivered)});
    }
}

void on_character(GLFWwindow* window, unsigned code) {
    state_of(window).queue.character(code, Window::now());
}

void on_refresh(GLFWwindow* window) { state_of(window).needs_drawing = true; }

void measure(WindowState& state) {
    int pixel_width = 0;
    int pixel_height = 0;
    int width = 0;
    int height = 0;
    glfwGetFramebufferSize(state.window, &pixel_width, &pixel_height);
    glfwGetWindowSize(state.window, &width, &height);
    if (width <= 0 || height <= 0) {
        return;
    }
    state.page = page_for(pixel_width, pixel_height);
    state.viewport = viewport_for(pixel_width, pixel_height, state.page);
    state.pixels_per_unit = static_cast<double>(pixel_width) / width;
    state.needs_drawing = true;
}

void on_size(GLFWwindow* window, int /*width*/, int /*height*/) { measure(state_of(window)); }

void listen(WindowState& state) {
    glfwSetWindowUserPointer(state.window, &state);
    glfwSetCursorPosCallback(state.window, on_move);
    glfwSetMouseButtonCallback(state.window, on_button);
    glfwSetKeyCallback(state.window, on_key);
    glfwSetCharCallback(state.window, on_character);
    glfwSetWindowRefreshCallback(state.window, on_refresh);
    glfwSetFramebufferSizeCallback(state.window, on_size);
}

GLFWwindow* create_window(const WindowSettings& settings) {
    glfwWindowHint(GLFW_CONTEXT_VERSION_MAJOR, 3);
    glfwWindowHint(GLFW_CONTEXT_VERSION_MINOR, 3);
    glfwWindowHint(GLFW_OPENGL_PROFILE, GLFW_OPENGL_CORE_PROFILE);
    glfwWindowHint(GLFW_AUTO_ICONIFY, GLFW_FALSE);
    GLFWmonitor* monitor = settings.fullscreen ? glfwGetPrimaryMonitor() : nullptr;
    const GLFWvidmode* mode = monitor == nullptr ? nullptr : glfwGetVideoMode(monitor);
    const int width = mode == nullptr ? settings.width : mode->width;
    const int height = mode == nullptr ? settings.height : mode->height;
    return glfwCreateWindow(width, height, settings.title.c_str(), monitor, nullptr);
}

/// Fonts, renderer and surface, once the OpenGL context is there. Returns what is wrong, or nothing.
std::string furnish(WindowState& state, const touch::Words& words) {
    state.context = ImGui::CreateContext();
    ImGui::GetIO().IniFilename = nullptr;
    ImGui::GetIO().BackendFlags |= ImGuiBackendFlags_RendererHasVtxOffset;
    ImFontAtlas& atlas = *ImGui::GetIO().Fonts;
    auto type = touch::Type::load(atlas, state.viewport.scale);
    if (!type) {
        return type.error();
    }
    state.type = std::move(*type);
    auto renderer = GlRenderer::create(atlas, state.viewport.scale);
    if (!renderer) {
        return renderer.error();
    }
    state.renderer.emplace(std::move(*renderer));
    state.glass.emplace(*state.type, words);
    return {};
}

}  // namespace

tl::expected<std::unique_ptr<Window>, std::string> Window::open(const WindowSettings& settings,
                                                                const touch::Words& words) {
    if (glfwInit() == GLFW_FALSE) {
        return tl::unexpected(glfw_says("No display can be opened"));
    }
    auto state = std::make_unique<WindowState>();
    state->queue = touch::InputQueue{settings.pedals, settings.scanner};
    state->window = create_window(settings);
    if (state->window == nullptr) {
        return tl::unexpected(glfw_says("No window with OpenGL 3.3 can be opened"));
    }
    glfwMakeContextCurrent(state->window);
    if (gladLoadGL(glfwGetProcAddress) == 0) {
        return tl::unexpected(std::string{"The functions of OpenGL 3.3 cannot be loaded."});
    }
    glfwSwapInterval(1);
    if (settings.fullscreen) {
        glfwSetInputMode(state->window, GLFW_CURSOR, GLFW_CURSOR_HIDDEN);
    }
    measure(*state);
    if (std::string wrong = furnish(*state, words); !wrong.empty()) {
        return tl::unexpected(std::move(wrong));
    }
    listen(*state);
    return std::unique_ptr<Window>{new Window{std::move(state)}};
}

Window::Window(std::unique_ptr<WindowState> state) : state_{std::move(state)} {}

Window::~Window() = default;

Seconds Window::now() {
    return std::chrono::duration<Seconds>(std::chrono::steady_clock::now().time_since_epoch()).count();
}

void Window::sleep(touch::Application& application) {
    WindowState& s = *state_;
    const Seconds start = now();
    Seconds until = start + longest_sleep;
    bool deadline = false;
    for (const Seconds wanted : {application.next_wake(start), s.queue.next_wake()}) {
        if (wanted >= 0 && wanted < until) {
            until = wanted;
            deadline = true;
        }
    }
    s.listening_since = start;
    if (s.needs_drawing || s.woken.load()) {
        glfwPollEvents();
    } else if (until > start) {
        glfwWaitEventsTimeout(until - start);
    } else {
        glfwPollEvents();
    }
    s.listened_until = now();
    s.needs_drawing = s.needs_drawing || s.queue.more() || (deadline && now() >= until);
}

void Window::show() {
    WindowState& s = *state_;
    s.renderer->draw(*ImGui::GetDrawData(), s.viewport);
    glfwSwapBuffers(s.window);
    s.needs_drawing = false;
}

void Window::run(touch::Application& application) {
    WindowState& s = *state_;
    while (glfwWindowShouldClose(s.window) == GLFW_FALSE) {
        sleep(application);
        if (s.woken.exchange(false)) {
            application.on_wake(now());
            s.needs_drawing = true;
        }
        if (!s.needs_drawing) {
            continue;
        }
        // Every change of the finger gets its own frame; only the last one is shown.
        do {
            touch::run_frame(application, *s.glass, s.queue.next(now()), s.page);
        } while (s.queue.more());
        show();
    }
}

void Window::close() { glfwSetWindowShouldClose(state_->window, GLFW_TRUE); }

void Window::wake() {
    state_->woken.store(true);
    glfwPostEmptyEvent();
}

const touch::Dropped& Window::dropped() const { return state_->queue.dropped(); }

touch::Glass& Window::glass() { return *state_->glass; }

}  // namespace brimline::kiosk
