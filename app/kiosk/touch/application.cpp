// One step of the loop: input first, then as many drawings as it takes until nothing changes any more.
#include "app/kiosk/touch/application.h"

namespace brimline::touch {

namespace {

constexpr int most_drawings =
    8;  // a command that leads to a command, and a few more; then show what there is

void draw_once(Application& application, Glass& glass, const FrameInput& input, Size size, Drawn& drawn) {
    ImGuiIO& io = ImGui::GetIO();
    io.DisplaySize = {size.w, size.h};
    io.DeltaTime = 1.0F / 60.0F;
    ImGui::NewFrame();
    glass.begin(input, size);
    drawn = application.draw(glass);
    glass.end();
    ImGui::Render();
}

}  // namespace

void run_frame(Application& application, Glass& glass, const FrameInput& input, Size size) {
    for (const PedalPress& press : input.pedals) {
        application.on_pedal(press);
    }
    for (const std::string& scan : input.scans) {
        application.on_scan(scan, input.now);
    }
    Drawn drawn = Drawn::stale;
    draw_once(application, glass, input, size, drawn);
    FrameInput quiet;
    quiet.now = input.now;
    quiet.finger = input.finger;
    quiet.down = input.down;
    for (int i = 1; i < most_drawings && drawn == Drawn::stale; ++i) {
        draw_once(application, glass, quiet, size, drawn);
    }
}

}  // namespace brimline::touch
