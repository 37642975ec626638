// Building what a power cut may leave.
#include "tests/faults/power_cut.h"

#include <algorithm>
#include <set>

namespace brimline::store::faults {
namespace {

constexpr std::int64_t sector = 512;
constexpr std::size_t most_combinations = 600;

/// What is not on the disk for sure yet: one sector of one file, its versions in time; or the file's length.
struct Piece {
    std::string file;
    std::int64_t at{-1};                // sector's offset; -1 = the length
    std::vector<std::string> versions;  // of the sector, the first is what was synced
    std::vector<std::int64_t> lengths;  // of the file
    std::vector<int> writes;            // which write made version 1, 2 …
    [[nodiscard]] std::size_t count() const { return at < 0 ? lengths.size() : versions.size(); }
};

/// A file under way: what is synced, and what is in it now.
struct Track {
    std::string synced, now;
    bool name_synced{true}, there{true};
    std::vector<Piece> pieces;
};

std::string padded(const std::string& bytes, std::int64_t at) {
    auto part = static_cast<std::size_t>(at) < bytes.size()
                    ? bytes.substr(static_cast<std::size_t>(at), sector)
                    : std::string{};
    part.resize(sector, '\0');
    return part;
}

class Disk {
public:
    Disk(const Image& base, Model model) : model_{model} {
        for (const auto& [name, bytes] : base) {
            files_[name] = {bytes, bytes, true, true, {}};
        }
    }

    void take(const Step& step) {
        switch (step.kind) {
            case Step::Kind::write:
                write(step);
                break;
            case Step::Kind::truncate:
                touch(step.file);
                resize(step.file, step.at);
                break;
            case Step::Kind::sync:
                sync(step.file);
                break;
            case Step::Kind::remove:
                files_.erase(step.file);  // SQLite syncs the folder with it, or the file is empty by then
                break;
            case Step::Kind::acknowledged:
                break;
        }
    }

    [[nodiscard]] std::vector<const Piece*> pieces() const {
        std::vector<const Piece*> all;
        for (const auto& [name, track] : files_) {
            for (const auto& piece : track.pieces) {
                all.push_back(&piece);
            }
        }
        return all;
    }
    [[nodiscard]] int writes() const { return writes_; }

    /// The image in which piece i stands at version `chosen[i]`; `tear` cuts one of them at a byte.
    [[nodiscard]] Image image(const std::vector<std::size_t>& chosen, std::size_t tear,
                              std::size_t tear_at) const {
        Image image;
        std::size_t i = 0;
        for (const auto& [name, track] : files_) {
            std::string bytes = track.synced;
            std::int64_t length = -1;
            for (const auto& piece : track.pieces) {
                const auto version = chosen[i];
                if (piece.at < 0) {
                    length = piece.lengths[version];
                } else {
                    put(bytes, piece.at, torn(piece, version, i == tear ? tear_at : 0));
                }
                ++i;
            }
            bytes.resize(static_cast<std::size_t>(length < 0 ? static_cast<std::int64_t>(track.synced.size())
                                                             : length),
                         '\0');
            const bool lost_name = !track.name_synced && bytes.empty();
            if (!lost_name) {
                image[name] = std::move(bytes);
            }
        }
        return image;
    }

private:
    static void put(std::string& bytes, std::int64_t at, const std::string& part) {
        const auto end = static_cast<std::size_t>(at + sector);
        bytes.resize(std::max(bytes.size(), end), '\0');
        std::copy(part.begin(), part.end(), bytes.begin() + static_cast<std::ptrdiff_t>(at));
    }
    static std::string torn(const Piece& piece, std::size_t version, std::size_t at) {
        auto part = piece.versions[version];
        if (at != 0 && version != 0) {
            const auto& older = piece.versions[version - 1];
            std::copy(older.begin() + static_cast<std::ptrdiff_t>(at), older.end(),
                      part.begin() + static_cast<std::ptrdiff_t>(at));
        }
        return part;
    }

    Track& touch(const std::string& name) {
        const auto [found, fresh] = files_.try_emplace(name);
        if (fresh) {
            found->second.name_synced = false;
        }
        return found->second;
    }
    void write(const Step& step) {
        auto& track = touch(step.file);
        ++writes_;
        const auto end = step.at + static_cast<std::int64_t>(step.bytes.size());
        if (end > static_cast<std::int64_t>(track.now.size())) {
            resize(step.file, end);
        }
        track.now.replace(static_cast<std::size_t>(step.at), step.bytes.size(), step.bytes);
        for (std::int64_t at = step.at / sector * sector; at < end; at += sector) {
            auto& piece = piece_of(track, step.file, at);
            piece.versions.push_back(padded(track.now, at));
            piece.writes.push_back(writes_);
        }
    }
    void resize(const std::string& name, std::int64_t size) {
        auto& track = files_[name];
        track.now.resize(static_cast<std::size_t>(size), '\0');
        auto& piece = piece_of(track, name, -1);
        piece.lengths.push_back(size);
        piece.writes.push_back(writes_);
    }
    Piece& piece_of(Track& track, const std::string& name, std::int64_t at) const {
        for (auto& piece : track.pieces) {
            if (piece.at == at) {
                return piece;
            }
        }
        Piece fresh{name, at, {}, {}, {}};
        if (at < 0) {
            fresh.lengths.push_back(static_cast<std::int64_t>(track.synced.size()));
        } else {
            fresh.versions.push_back(padded(track.synced, at));
        }
        return track.pieces.emplace_back(std::move(fresh));
    }
    void sync(const std::string& name) {
        const auto found = files_.find(name);
        const bool log = name.size() > 4 && name.substr(name.size() - 4) == "-wal";
        if (found == files_.end() || model_.nothing_syncs || (log && model_.log_never_syncs)) {
            return;
        }
        found->second.synced = found->second.now;
        found->second.name_synced = true;
        found->second.pieces.clear();
    }

    Model model_;
    std::map<std::string, Track> files_;
    int writes_{0};
};

/// The choices of one point: every one, or a listed part of them.
class Choices {
public:
    explicit Choices(const Disk& disk) : pieces_{disk.pieces()} {}

    [[nodiscard]] std::vector<std::vector<std::size_t>> list(int random, std::mt19937_64& chance) const {
        std::size_t all = 1;
        for (const auto* piece : pieces_) {
            all = std::min(all * piece->count(), most_combinations + 1);
        }
        return all <= most_combinations ? every(all) : some(random, chance);
    }

private:
    [[nodiscard]] std::vector<std::vector<std::size_t>> every(std::size_t all) const {
        std::vector<std::vector<std::size_t>> list;
        for (std::size_t n = 0; n < all; ++n) {
            std::vector<std::size_t> chosen;
            std::size_t rest = n;
            for (const auto* piece : pieces_) {
                chosen.push_back(rest % piece->count());
                rest /= piece->count();
            }
            list.push_back(std::move(chosen));
        }
        return list;
    }
    /// The latest version of each piece that one of these writes made.
    [[nodiscard]] std::vector<std::size_t> after(const std::function<bool(int)>& made) const {
        std::vector<std::size_t> chosen;
        for (const auto* piece : pieces_) {
            std::size_t version = 0;
            for (std::size_t i = 0; i < piece->writes.size(); ++i) {
                version = made(piece->writes[i]) ? i + 1 : version;
            }
            chosen.push_back(version);
        }
        return chosen;
    }
    [[nodiscard]] std::vector<std::vector<std::size_t>> some(int random, std::mt19937_64& chance) const {
        std::set<int> writes;
        for (const auto* piece : pieces_) {
            writes.insert(piece->writes.begin(), piece->writes.end());
        }
        std::vector<std::vector<std::size_t>> list;
        for (const int one : writes) {
            list.push_back(after([&](int w) { return w <= one; }));
            list.push_back(after([&](int w) { return w != one; }));
            list.push_back(after([&](int w) { return w == one; }));
        }
        const auto whole = after([](int) { return true; });
        for (std::size_t i = 0; i < pieces_.size(); ++i) {
            list.push_back(whole);
            list.back()[i] = 0;
        }
        for (int n = 0; n < random; ++n) {
            auto chosen = whole;
            for (std::size_t i = 0; i < chosen.size(); ++i) {
                chosen[i] = chance() % pieces_[i]->count();
            }
            list.push_back(std::move(chosen));
        }
        return list;
    }
    std::vector<const Piece*> pieces_;
};

}  // namespace

void cut_everywhere(const Image& base, const std::vector<Step>& steps, const Model& model, int random,
                    int stride, std::mt19937_64& chance, const Visit& visit) {
    Disk disk{base, model};
    int acknowledged = 0;
    std::size_t turn = chance() % static_cast<std::size_t>(stride);
    for (const auto& step : steps) {
        const bool point = step.kind != Step::Kind::write && step.kind != Step::Kind::truncate;
        const bool told = step.kind == Step::Kind::acknowledged;
        acknowledged = told ? static_cast<int>(step.at) : acknowledged;
        if (point) {  // just before it takes effect: everything since the last sync may be there or not
            for (const auto& chosen : Choices{disk}.list(random, chance)) {
                if (turn++ % static_cast<std::size_t>(stride) != 0) {
                    continue;
                }
                const bool tear = model.torn && !chosen.empty();
                visit(disk.image(chosen, tear ? chance() % chosen.size() : chosen.size(),
                                 tear ? 1 + chance() % (sector - 1) : 0),
                      acknowledged);
            }
        }
        disk.take(step);
    }
}

}  // namespace brimline::store::faults
