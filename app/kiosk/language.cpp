// Finding the words.
#include "app/kiosk/language.h"

#include <filesystem>

#include "app/loop/policy_source.h"

namespace brimline::kiosk {

tl::expected<touch::Words, std::string> words_of_glass(const std::string& language) {
    const auto assets = assets_folder();
    if (!assets) {
        return tl::unexpected{assets.error().say + " " + assets.error().next};
    }
    const auto folder = *assets / "words";
    const bool two_letters =
        language.size() == 2 && language.find_first_not_of("abcdefghijklmnopqrstuvwxyz") == std::string::npos;
    const auto wanted = folder / (language + ".json");
    std::error_code unreadable;
    const bool there = two_letters && std::filesystem::exists(wanted, unreadable);
    return touch::Words::load((there ? wanted : folder / "en.json").string());
}

}  // namespace brimline::kiosk
