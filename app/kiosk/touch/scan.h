// Tells a scanner from a person: both arrive as a keyboard, only the scanner is faster than any hand.
// A scan never types into a field and never presses a button; what a person typed comes out unchanged.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

namespace brimline::touch {

/// Seconds on the monotonic clock of the kiosk.
using Seconds = double;

/// The keys that mean something to a kiosk; letters and digits arrive as characters instead.
enum class Key { none, enter, keypad_enter, tab, escape, backspace, f8, f13, f14, group_separator };

/// What a clinic may set about its scanner.
struct ScannerSettings {
    Seconds longest_gap{0.050};  ///< a longer pause between two characters means a hand
    Seconds silence{0.100};      ///< so long without a character ends a scan that has no end key
    std::size_t least{6};        ///< fewer characters are no scan
    Key separator{Key::f8};      ///< key that stands for the group separator beside Ctrl+]
};

/// Either a character or a key, in the order in which a person pressed them.
struct Stroke {
    Key key{Key::none};
    char32_t character{0};
    Seconds time{0};
    bool operator==(const Stroke&) const = default;
};

/// Collects strokes, and gives them back as scans or as typing once it is sure which of the two they are.
class ScanCollector {
public:
    explicit ScanCollector(ScannerSettings settings = {}) : settings_{settings} {}

    /// One character or key arrived.
    void add(const Stroke& stroke);
    /// Time went by: ends a scan by silence and releases what turned out to be typing.
    void pass(Seconds now);
    /// When `pass` should be called next; a negative number when nothing waits.
    [[nodiscard]] Seconds next_wake() const;
    /// The scans finished so far, each with its characters as UTF-8; taken out.
    [[nodiscard]] std::vector<std::string> take_scans();
    /// The strokes that a person typed; taken out.
    [[nodiscard]] std::vector<Stroke> take_typing();

private:
    [[nodiscard]] bool is_end(Key key) const;
    void close();
    void finish_scan(Seconds now);

    ScannerSettings settings_;
    std::vector<Stroke> waiting_;
    std::vector<std::string> scans_;
    std::vector<Stroke> typing_;
    Seconds scan_ended_{-1};
};

/// Appends one character to `text` as UTF-8.
void append_utf8(std::string& text, char32_t character);

}  // namespace brimline::touch
