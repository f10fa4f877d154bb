#include "report/finding_json.hpp"

#include <algorithm>
#include <array>
#include <cstdint>
#include <cstdio>
#include <cstring>

#include <nlohmann/json.hpp>

#include "base/text.hpp"

namespace report {
namespace {

using nlohmann::ordered_json;

ordered_json number_json(double value) {
    // What is shown and compared is decimal; the binary rest of a sum says nothing.
    return ordered_json::parse(base::number_text(value, 6));
}

ordered_json value_json(const trade::Value& value) {
    if (value.is_number()) return number_json(value.number);
    return value.words;
}

std::string unit_text(const trade::Value& value) {
    return value.unit == base::Unit::count ? "" : std::string{base::symbol(value.unit)};
}

void append_names(std::string& line, std::string_view key, trade::ResultSet set, const trade::Vocabulary& vocabulary) {
    line += '"';
    line += key;
    line += "\":[";
    bool first = true;
    for (std::size_t i = 0; set >> i != 0; ++i) {
        if (((set >> i) & 1U) == 0) continue;
        if (!first) line += ',';
        first = false;
        append_json_text(line, vocabulary.results()[i].name);
        if (i + 1 == trade::kMostWords) break;
    }
    line += "],";
}

void append_member(std::string& line, std::string_view key, std::string_view text) {
    line += '"';
    line += key;
    line += "\":";
    append_json_text(line, text);
}

void append_findings(std::string& line, const trade::Ruling& ruling) {
    line += "\"findings\":[";
    const std::size_t start = line.size();
    const auto open = [&] { line += line.size() == start ? "{" : ",{"; };
    for (const auto& fired : ruling.fired) {
        open();
        append_member(line, "rule", fired.rule->id);
        line += ',';
        append_member(line, to_text(fired.rule->effect), fired.rule->result);
        line += ',';
        append_member(line, "article", fired.version->article);
        line += ',';
        append_member(line, "why", fired.rule->why);
        if (fired.count) line += ",\"count\":" + base::number_text(*fired.count);
        if (fired.version->unverified) line += ",\"unverified\":true";
        if (fired.rule->local) line += ",\"local\":true";
        line += '}';
    }
    for (const auto& out : ruling.excepted) {
        open();
        append_member(line, "exception_to", out.rule->id);
        line += ',';
        append_member(line, "exempt", out.rule->result);
        line += ',';
        append_member(line, "article", out.exception->article.empty() ? out.version->article : out.exception->article);
        line += ',';
        append_member(line, "why", out.exception->why);
        line += '}';
    }
    for (const auto& clash : ruling.findings) {
        open();
        append_member(line, "contradiction", clash);
        line += '}';
    }
    line += "],";
}

void append_articles(std::string& line, const trade::Ruling& ruling) {
    std::vector<std::string_view> articles;
    const auto add = [&](std::string_view article) {
        if (std::find(articles.begin(), articles.end(), article) == articles.end()) articles.push_back(article);
    };
    for (const auto& fired : ruling.fired) add(fired.version->article);
    for (const auto& out : ruling.excepted)
        add(out.exception->article.empty() ? out.version->article : out.exception->article);
    line += "\"articles\":[";
    for (std::size_t i = 0; i < articles.size(); ++i) {
        if (i > 0) line += ',';
        append_json_text(line, articles[i]);
    }
    line += "],";
}

void append_counts(std::string& line, const trade::Ruling& ruling) {
    line += "\"counts\":{";
    std::vector<std::pair<std::string_view, double>> counts;
    for (const auto& fired : ruling.fired) {
        if (!fired.count) continue;
        const auto known =
            std::find_if(counts.begin(), counts.end(), [&](const auto& c) { return c.first == fired.rule->result; });
        if (known == counts.end())
            counts.emplace_back(fired.rule->result, *fired.count);
        else
            known->second = std::max(known->second, *fired.count);
    }
    for (std::size_t i = 0; i < counts.size(); ++i) {
        if (i > 0) line += ',';
        append_json_text(line, counts[i].first);
        line += ':' + base::number_text(counts[i].second);
    }
    line += "},";
}

/// True when none of eight bytes needs an escape: eight at a time, since this is most of what a batch writes.
bool none_escaped(const char* eight) {
    constexpr std::uint64_t kOnes = 0x0101010101010101U, kHighs = 0x8080808080808080U;
    std::uint64_t bytes = 0;
    std::memcpy(&bytes, eight, sizeof bytes);
    const auto has_zero = [](std::uint64_t x) { return (x - kOnes) & ~x & kHighs; };
    const std::uint64_t control = (bytes - kOnes * 0x20U) & ~bytes & kHighs;
    return (control | has_zero(bytes ^ (kOnes * '"')) | has_zero(bytes ^ (kOnes * '\\'))) == 0;
}

}  // namespace

void append_json_text(std::string& line, std::string_view text) {
    line += '"';
    std::size_t kept = 0;
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (i + sizeof(std::uint64_t) <= text.size() && none_escaped(text.data() + i)) {
            i += sizeof(std::uint64_t) - 1;
            continue;
        }
        const char c = text[i];
        const bool control = static_cast<unsigned char>(c) < 0x20U;
        if (!control && c != '"' && c != '\\') continue;
        line.append(text, kept, i - kept);
        kept = i + 1;
        std::array<char, 8> escape{'\\', c};
        if (control) std::snprintf(escape.data(), escape.size(), "\\u%04x", static_cast<unsigned>(c));
        line += escape.data();
    }
    line.append(text, kept);
    line += '"';
}

ordered_json finding_json(const trade::Finding& finding) {
    ordered_json also = ordered_json::object();
    for (const auto& [name, value] : finding.also)
        also[std::string{name}] = {{"value", value_json(value)}, {"unit", unit_text(value)}};
    return {{"answer", finding.answer ? value_json(*finding.answer) : ordered_json{}},
            {"unit", finding.answer ? unit_text(*finding.answer) : ""},
            {"also", also},
            {"articles", finding.articles},
            {"unknown", finding.unknown},
            {"findings", finding.findings},
            {"steps", finding.steps}};
}

void append_ruling(std::string& line, const trade::Ruling& ruling, const trade::Vocabulary& vocabulary) {
    append_names(line, "requires", ruling.requires_, vocabulary);
    append_names(line, "open", ruling.may_be, vocabulary);
    append_names(line, "exempt", ruling.exempt, vocabulary);
    append_names(line, "permits", ruling.permits, vocabulary);
    append_names(line, "forbids", ruling.forbids, vocabulary);
    append_counts(line, ruling);
    append_articles(line, ruling);
    append_findings(line, ruling);
    line += "\"unknown\":[";
    for (std::size_t i = 0; i < ruling.unknown.size(); ++i) {
        if (i > 0) line += ',';
        append_json_text(line, vocabulary.facts()[ruling.unknown[i]].name);
    }
    line += ']';
}

ordered_json ruling_json(const trade::Ruling& ruling, const trade::Vocabulary& vocabulary) {
    std::string line = "{";
    append_ruling(line, ruling, vocabulary);
    return ordered_json::parse(line + "}");
}

}  // namespace report
