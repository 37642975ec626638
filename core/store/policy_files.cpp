// Reading a folder of policy files.
#include "core/store/policy_files.h"

#include <algorithm>
#include <system_error>

#include "core/store/small_file.h"

namespace brimline::store {

tl::expected<std::vector<PolicyFile>, std::vector<PolicyFault>> read_policy_folder(
    const std::filesystem::path& folder) {
    namespace fs = std::filesystem;
    constexpr std::size_t most = std::size_t{4} * 1024 * 1024;
    std::error_code wrong;
    std::vector<fs::path> paths;
    fs::directory_iterator entry{folder, wrong};
    for (; !wrong && entry != fs::directory_iterator{}; entry.increment(wrong)) {
        if (entry->path().extension() == ".json") {
            paths.push_back(entry->path());
        }
    }
    if (wrong) {
        return tl::unexpected{std::vector<PolicyFault>{
            {folder.string(), "", "The policy folder cannot be read: " + wrong.message() + "."}}};
    }
    std::sort(paths.begin(), paths.end());
    std::vector<PolicyFile> files;
    std::vector<PolicyFault> faults;
    for (const fs::path& path : paths) {
        const std::string name = path.filename().string();
        if (auto text = read_file(path, most)) {
            files.push_back({name, std::move(*text)});
        } else {
            faults.push_back({name, "", "The file cannot be read: " + words_for_errno(text.error()) + "."});
        }
    }
    if (!faults.empty()) {
        return tl::unexpected{std::move(faults)};
    }
    return files;
}

}  // namespace brimline::store
