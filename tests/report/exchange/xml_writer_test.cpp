#include <doctest/doctest.h>

#include <set>

#include "base/random.hpp"
#include "report/exchange/xml_tree.hpp"
#include "report/exchange/xml_writer.hpp"

namespace {

std::string random_bytes(base::Random& random, std::size_t most) {
    std::string bytes;
    for (auto left = random.below(most + 1); left > 0; --left) bytes += static_cast<char>(random.below(256));
    return bytes;
}

}  // namespace

TEST_CASE("xml: whatever is written comes back, less what XML has no place for") {
    CHECK(report::xml_escaped("a < b & \"c\" > 'd'") == "a &lt; b &amp; &quot;c&quot; &gt; &#39;d&#39;");
    CHECK(report::xml_escaped(std::string_view{"a\0b\x01\x1f\tc", 7}) == "ab\tc");
    CHECK(report::xml_escaped("1\xC2\xBD in\xE2\x80\xB3 \xF0\x9F\x94\x8C") ==
          "1\xC2\xBD in\xE2\x80\xB3 \xF0\x9F\x94\x8C");
    CHECK(report::xml_escaped("x\xEF\xBF\xBFy\xED\xA0\x80z\xC0\xAFw\xE2\x82") ==
          "xyzw");  // noncharacter, surrogate, overlong, cut
    CHECK(report::xml_escaped("\xFF"
                              "a") == "a");
    report::XmlWriter xml;
    xml.open("a", {{"b", "1 < \"2\""}});
    xml.leaf("c", "x & y");
    xml.open("p");
    xml.text("in ");
    xml.empty("d", {});
    xml.text(" out");
    const auto text = xml.finish();
    const auto root = xml_tree::read(text);
    CHECK(root.at("b") == "1 < \"2\"");
    CHECK(root.one("c").text == "x & y");
    CHECK(root.one("p").text == "in  out");
    CHECK(text.find("<p>in <d/> out</p>") != std::string::npos);  // no white space put into text
}

TEST_CASE("xml: any bytes give a well-formed document and a name without colon") {
    for (std::uint64_t seed = 1; seed <= 2000; ++seed) {
        CAPTURE(seed);
        base::Random random{seed};
        const auto bytes = random_bytes(random, 40);
        report::XmlWriter xml;
        xml.open("a", {{"b", bytes}});
        xml.text(bytes);
        CHECK_NOTHROW(static_cast<void>(xml_tree::read(xml.finish())));
        const auto name = report::xml_name(bytes);
        CHECK(name.find_first_not_of("abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789_-") ==
              std::string::npos);
        CHECK(std::string{"-_0123456789"}.find(name.front()) == std::string::npos);
    }
    CHECK(report::xml_name("gfci.kitchen") == "gfci_kitchen");
    CHECK(report::xml_name("2nd rod") == "q-2nd_20rod");
    CHECK(report::xml_name("") == "q-");
}

TEST_CASE("xml: the checker of these tests refuses what is not well-formed") {
    const std::string head = "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n";
    CHECK_NOTHROW(static_cast<void>(xml_tree::read(head + "<a b=\"c\"><d/>e</a>\n")));
    for (const std::string broken : {"<a>", "<a></b>", "<a b=\"1\" b=\"2\"/>", "<a>&nbsp;</a>", "<a>&</a>", "<a/><b/>",
                                     "<a b=c/>", "<a>]]></a>", "<a>\x02</a>", "<a>\xC3</a>", "<1/>", "text"})
        CHECK_THROWS_MESSAGE(static_cast<void>(xml_tree::read(head + broken)), broken);
    CHECK_THROWS(static_cast<void>(xml_tree::read("<a/>")));
}
