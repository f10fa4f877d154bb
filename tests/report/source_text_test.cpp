#include <doctest/doctest.h>

#include "report/source_text.hpp"

TEST_CASE("source: what the trade does is not put into the code's mouth") {
    content::Version version;
    version.article = "110.3(B)";
    version.basis.kind = trade::Basis::Kind::memory;
    const auto code = report::source_text(version, trade::Edition::e2023);
    CHECK(code.label == "Code");
    CHECK(code.text == "110.3(B) (2023 edition)");
    version.basis.kind = trade::Basis::Kind::practice;
    const auto trade = report::source_text(version, trade::Edition::e2023);
    CHECK(trade.label == "Trade");
    CHECK(trade.text == "practice of the trade, filed under 110.3(B)");
}
