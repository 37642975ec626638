// brimline: one program. Without a sub-command it opens the kiosk; the others are the command line.
#include <sys/prctl.h>
#include <sys/resource.h>
#include <sys/stat.h>

#include <cstdio>
#include <exception>

#include "app/desk/commands.h"
#include "app/kiosk/kiosk_command.h"
#include "app/kiosk/picture_command.h"

namespace {

int parse_and_run(int argc, char** argv) {
    CLI::App app{
        "Brimline records, counts and reminds at the bedside; it does not decide, dose or diagnose, and it "
        "is not a\n"
        "certified medical device. Follow the device's own leaflet, local protocol and licensed clinicians."};
    app.name("brimline");
    app.set_version_flag("--version", "brimline 0.1.0");
    app.require_subcommand(0, 1);
    brimline::desk::Run run;
    brimline::kiosk::add_kiosk(app, run);
    brimline::kiosk::add_picture(app, run);
    brimline::desk::add_script(app, run);
    brimline::desk::add_show(app, run);
    brimline::desk::add_export(app, run);
    brimline::desk::add_package(app, run);
    brimline::desk::add_import(app, run);
    brimline::desk::add_verify(app, run);
    brimline::desk::add_people(app, run);
    brimline::desk::add_policy(app, run);
    brimline::desk::add_rules(app, run);
    brimline::desk::add_register(app, run);
    brimline::desk::add_backup(app, run);
    brimline::desk::add_self_test(app, run);
    brimline::desk::add_audit(app, run);
    brimline::desk::add_print(app, run);
    brimline::desk::add_keys(app, run);
    try {
        app.parse(argc, argv);
    } catch (const CLI::ParseError& problem) {
        const int code = app.exit(problem);
        return code == 0 ? 0 : 2;
    }
    return run ? run() : 2;
}

/// Names and PINs stand in memory: no core dump of it, no other process of this user may look into it, and
/// whatever is made is its owner's alone.
void keep_to_itself() {
    const rlimit none{0, 0};
    static_cast<void>(::setrlimit(RLIMIT_CORE, &none));
    static_cast<void>(::prctl(PR_SET_DUMPABLE, 0));
    static_cast<void>(::umask(0077));
}

}  // namespace

int main(int argc, char** argv) {
    keep_to_itself();
    try {
        return parse_and_run(argc, argv);
    } catch (const std::exception& problem) {
        std::fprintf(stderr, "Brimline stopped: %s. Nothing that was saved is lost; start it again.\n",
                     problem.what());
        return 3;
    }
}
