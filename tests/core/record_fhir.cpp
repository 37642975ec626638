// FHIR documents, tables and dates where the command line cannot reach: names of bytes, awkward cells, folded
// lines.
#include "core/record/calendar.h"
#include "core/record/csv.h"
#include "core/record/fhir.h"
#include "core/record/fhir_bytes.h"
#include "tests/catch.h"
#include "tests/core/bed_looks.h"

namespace brimline::test {
namespace {

std::string hex_of(const std::array<std::uint8_t, 20>& bytes) {
    std::string text;
    for (const auto byte : bytes) {
        text += fmt::format("{:02x}", byte);
    }
    return text;
}

std::string document_of(const Bed& bed) {
    return fhir_document({bed.state(), bed.desk, bed.policy(), bed.zone(), "test", ""});
}
bool holds(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

}  // namespace

TEST_CASE("SHA-1 gives the digests of RFC 3174 section 7.3", "[fhir]") {
    CHECK(hex_of(fhir::sha1("abc")) == "a9993e364706816aba3e25717850c26c9cd0d89d");
    CHECK(hex_of(fhir::sha1("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq")) ==
          "84983e441c3bd26ebaae4aa1f95129e5e54670f1");
    CHECK(hex_of(fhir::sha1(std::string(1'000'000, 'a'))) == "34aa973cd4c4daa4f61eeb2bdbad27316534016f");
}

TEST_CASE("a UUID of a name is that of RFC 9562 appendix A.4", "[fhir]") {
    const std::array<std::uint8_t, 16> domains{0x6b, 0xa7, 0xb8, 0x10, 0x9d, 0xad, 0x11, 0xd1,
                                               0x80, 0xb4, 0x00, 0xc0, 0x4f, 0xd4, 0x30, 0xc8};
    CHECK(fhir::uuid_of(domains, "www.example.com") == "2ed6657d-e927-568b-95e1-2665a8aea6a2");
}

TEST_CASE("base64 gives the vectors of RFC 4648 section 10", "[fhir]") {
    CHECK(fhir::base64("").empty());
    CHECK(fhir::base64("f") == "Zg==");
    CHECK(fhir::base64("fo") == "Zm8=");
    CHECK(fhir::base64("foo") == "Zm9v");
    CHECK(fhir::base64("foob") == "Zm9vYg==");
    CHECK(fhir::base64("fooba") == "Zm9vYmE=");
    CHECK(fhir::base64("foobar") == "Zm9vYmFy");
}

TEST_CASE("a case just booked is a preliminary document by the kiosk, planned and in preparation", "[fhir]") {
    const auto text = document_of(bed_with_case());
    CHECK(holds(text, "\"status\": \"preliminary\""));
    CHECK(holds(text, "\"status\": \"preparation\""));
    CHECK(holds(text, "\"status\": \"planned\""));
    CHECK_FALSE(holds(text, "Provenance"));
    CHECK_FALSE(holds(text, "attester"));
}

TEST_CASE("a corrected entry is told as corrected, with the value that stands", "[fhir]") {
    auto bed = bed_ready_to_fill();
    bed.at("09:38", R"("by":"noor","do":"vitals","hr":176,"systolic":120,"diastolic":70,"spo2":97,"rr":14)");
    const auto entry = std::to_string(bed.last_seq());
    bed.at("09:39", R"("by":"noor","do":"correct","entry":)" + entry + R"(,"hr":76,"reason":"slip")");
    const auto text = document_of(bed);
    CHECK(holds(text, "\"status\": \"corrected\""));
    CHECK(holds(text, "\"value\": 76,"));
    CHECK_FALSE(holds(text, "\"value\": 176,"));
}

TEST_CASE("a withdrawn dose stays in the document as entered in error", "[fhir]") {
    auto bed = bed_ready_to_fill();
    bed.at("09:38", R"("by":"noor","do":"dose","drug":"propofol","amount":30,"unit":"mg")");
    const auto dose = std::to_string(bed.last_seq());
    CHECK(holds(document_of(bed), "\"resourceType\": \"MedicationAdministration\""));
    CHECK_FALSE(holds(document_of(bed), "entered-in-error"));
    bed.at("09:39",
           R"("by":"noor","do":"correct","entry":)" + dose + R"(,"withdrawn":true,"reason":"not given")");
    CHECK(holds(document_of(bed), "entered-in-error"));
}

TEST_CASE("cells that a spreadsheet would take for a formula are guarded and named", "[csv]") {
    CHECK(CsvLine{}.text("a", "=1+1").text("b", "fine").end() == "'=1+1,fine,a\r\n");
    CHECK(CsvLine{}.text("a", "@x").text("b", "\tx").end() == "'@x,'\tx,a b\r\n");
    CHECK(CsvLine{}.text("a", "+44").text("b", "-1").end() == "'+44,'-1,a b\r\n");
    CHECK(CsvLine{}.plain("-12.5").end() == "-12.5,\r\n");
}

TEST_CASE("commas, quotes and line breaks are quoted (RFC 4180 section 2)", "[csv]") {
    CHECK(CsvLine{}.text("a", "x,y").end() == "\"x,y\",\r\n");
    CHECK(CsvLine{}.text("a", "say \"no\"").end() == "\"say \"\"no\"\"\",\r\n");
    CHECK(CsvLine{}.text("a", "two\nlines").end() == "\"two\nlines\",\r\n");
    CHECK(CsvLine{}.text("a", "").text("b", "").end() == ",,\r\n");
}

TEST_CASE("a long summary is folded at 75 octets and never inside a letter (RFC 5545 section 3.1)",
          "[calendar]") {
    std::string letters;
    for (int i = 0; i < 80; ++i) {
        letters += "\xC5\x82";  // two octets each
    }
    const auto text = calendar_day({"u", letters + ";,\\", *parse_date("2026-12-31"), 2, {0, 30}}, Instant{});
    for (std::size_t from = 0; from < text.size();) {
        const auto end = text.find("\r\n", from);
        CHECK(end - from <= 75);
        CHECK((static_cast<unsigned char>(text[from]) & 0xC0U) != 0x80U);
        from = end + 2;
    }
    CHECK(holds(text, "\\;\\,\\\\"));
    CHECK(holds(text, "DTEND;VALUE=DATE:20270101"));
    CHECK(holds(text, "SEQUENCE:2"));
    CHECK(holds(text, "TRIGGER:-P30D"));
}

}  // namespace brimline::test
