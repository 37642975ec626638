// The paper sheet for a morning without a kiosk: the questions, checks and limits of the clinic's own policy,
// with room to write. What is written on it is entered later as "from paper", with the number of the sheet.
#pragma once
#include <map>
#include <string>

#include "core/clinic/policy.h"
#include "core/print/canvas.h"

namespace brimline::print {

/// The words of the sheet, from a file of assets/paper.
class PaperWords {
public:
    /// Shape: a JSON object of texts by key. Errors: sheet-words, with what is missing or no text.
    [[nodiscard]] static Expected<PaperWords> read(std::string_view json_text);
    [[nodiscard]] std::string say(std::string_view key) const;
    /// With {n} replaced.
    [[nodiscard]] std::string say(std::string_view key, const std::string& n) const;

private:
    std::map<std::string, std::string, std::less<>> texts_;
};

/// Two pages or a few more where the clinic's lists are long. Errors: empty when cairo could not draw it.
[[nodiscard]] std::string downtime_pdf(const Policy& policy, const PaperWords& words, PageSize page,
                                       Instant created);

}  // namespace brimline::print
