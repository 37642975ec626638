// Printing from the kiosk.
#include "app/kiosk/kiosk_printer.h"

#include <fmt/format.h>

#include <mutex>
#include <thread>

#include "app/desk/printer.h"
#include "app/desk/prints.h"
#include "app/loop/policy_source.h"

namespace brimline::kiosk {
namespace {

using screens::PrintOutcome;
using screens::PrintState;

class KioskPrinter final : public screens::Printing {
public:
    KioskPrinter(std::filesystem::path folder, std::function<void()> wake)
        : folder_{std::move(folder)}, wake_{std::move(wake)} {}
    ~KioskPrinter() override {
        if (thread_.joinable()) {
            thread_.join();
        }
    }
    KioskPrinter(const KioskPrinter&) = delete;
    KioskPrinter& operator=(const KioskPrinter&) = delete;

    void print(bool card, const CaseState& state, const Desk& desk, const Policy& policy, const Zone& zone,
               Instant now) override {
        if (outcome().state == PrintState::working) {
            return;
        }
        if (thread_.joinable()) {
            thread_.join();
        }
        const auto made = keep(card, state, desk, policy, zone, now);
        if (!made) {
            return tell({PrintState::failed, card, ""});
        }
        tell({PrintState::working, card, made->string()});
        thread_ = std::thread{[this, card, file = *made] {
            const bool taken = send_to_printer(file, "").has_value();
            tell({taken ? PrintState::printed : PrintState::kept, card, file.string()});
            wake_();
        }};
    }
    [[nodiscard]] PrintOutcome outcome() const override {
        const std::scoped_lock lock{mutex_};
        return outcome_;
    }

private:
    [[nodiscard]] Expected<std::filesystem::path> keep(bool card, const CaseState& state, const Desk& desk,
                                                       const Policy& policy, const Zone& zone,
                                                       Instant now) const {
        const auto assets = assets_folder();
        if (!assets) {
            return tl::unexpected{assets.error()};
        }
        const auto page = page_size("", policy);
        const PrintSource source{&state, desk, policy, zone, now, *assets};
        const auto pdf = !page  ? tl::unexpected{page.error()}
                         : card ? card_pdf_of(source, "", *page)
                                : leaflet_pdf_of(source, "", *page);
        return pdf ? keep_print(folder_ / fmt::format("{}-{}.pdf", state.name, card ? "card" : "leaflet"),
                                *pdf)
                   : tl::unexpected{pdf.error()};
    }
    void tell(PrintOutcome outcome) {
        const std::scoped_lock lock{mutex_};
        outcome_ = std::move(outcome);
    }

    std::filesystem::path folder_;
    std::function<void()> wake_;
    mutable std::mutex mutex_;
    PrintOutcome outcome_;
    std::thread thread_;
};

}  // namespace

std::shared_ptr<screens::Printing> kiosk_printer(const std::filesystem::path& data,
                                                 std::function<void()> wake) {
    return std::make_shared<KioskPrinter>(data / "prints", std::move(wake));
}

}  // namespace brimline::kiosk
