// Adding the language to a PDF.
#include "core/print/document_language.h"

#include <fmt/format.h>

#include <charconv>
#include <optional>

namespace brimline::print {
namespace {

/// The whole number that follows the last place of `key`.
std::optional<std::size_t> last_number(std::string_view pdf, std::string_view key) {
    const auto at = pdf.rfind(key);
    if (at == std::string_view::npos) {
        return std::nullopt;
    }
    auto from = at + key.size();
    while (from < pdf.size() && (pdf[from] == ' ' || pdf[from] == '\n' || pdf[from] == '\r')) {
        ++from;
    }
    std::size_t value = 0;
    const auto read = std::from_chars(pdf.data() + from, pdf.data() + pdf.size(), value);
    return read.ec == std::errc{} ? std::optional{value} : std::nullopt;
}

/// The inside of an object's outermost dictionary: "/Type /Catalog ...".
std::optional<std::string_view> dictionary_of(std::string_view pdf, std::size_t object) {
    const auto head = fmt::format("\n{} 0 obj\n", object);
    const auto at = pdf.rfind(head);
    const auto end = at == std::string_view::npos ? at : pdf.find("endobj", at);
    if (end == std::string_view::npos) {
        return std::nullopt;
    }
    const auto body = pdf.substr(at + head.size(), end - at - head.size());
    const auto open = body.find("<<");
    const auto close = body.rfind(">>");
    if (open == std::string_view::npos || close == std::string_view::npos || close < open + 2) {
        return std::nullopt;
    }
    return body.substr(open + 2, close - open - 2);
}

}  // namespace

std::string with_language(std::string pdf, std::string_view language) {
    const auto root = last_number(pdf, "/Root");
    const auto info = last_number(pdf, "/Info");
    const auto size = last_number(pdf, "/Size");
    const auto xref = last_number(pdf, "startxref");
    const auto catalogue = root ? dictionary_of(pdf, *root) : std::nullopt;
    if (!info || !size || !xref || !catalogue || language.size() != 2 ||
        catalogue->find("/Lang") != std::string_view::npos) {
        return pdf;
    }
    // cairo 1.16 writes the structure and does not say that it is there.
    const bool structured = catalogue->find("/StructTreeRoot") != std::string_view::npos &&
                            catalogue->find("/MarkInfo") == std::string_view::npos;
    const auto object = fmt::format(
        "{} 0 obj\n<<{}{}   /Lang ({})\n   /ViewerPreferences << /DisplayDocTitle true >>\n>>\nendobj\n",
        *root, *catalogue, structured ? "   /MarkInfo << /Marked true >>\n" : "", language);
    if (pdf.back() != '\n') {
        pdf += '\n';
    }
    const auto at = pdf.size();
    pdf += object;
    const auto table = pdf.size();
    pdf += fmt::format("xref\n{} 1\n{:010} 00000 n \n", *root, at);
    pdf += fmt::format("trailer\n<< /Size {} /Root {} 0 R /Info {} 0 R /Prev {} >>\nstartxref\n{}\n%%EOF\n",
                       *size, *root, *info, *xref, table);
    return pdf;
}

}  // namespace brimline::print
