#include "content/write/readings_file.hpp"

#include <filesystem>
#include <system_error>

#include <nlohmann/json.hpp>

#include "base/located_json.hpp"
#include "content/read/read_readings.hpp"
#include "content/source.hpp"
#include "content/write/tidy_deck.hpp"

namespace content {

using nlohmann::ordered_json;

base::Checked<std::vector<Reading>> load_readings(const std::string& path) {
    std::error_code error;
    if (!std::filesystem::exists(path, error)) return std::vector<Reading>{};
    const auto text = read_source(path);
    if (!text) return tl::unexpected{text.error()};
    const auto located = base::parse_located(*text, path);
    if (!located) return tl::unexpected{located.error()};
    base::Faults faults;
    auto readings = read_readings({*located, path, "", faults});
    if (!faults.empty()) return tl::unexpected{std::move(faults)};
    return readings;
}

std::string readings_text(const std::vector<Reading>& readings, const std::string& reader) {
    std::string text = "{\n  \"format\": \"" + std::string{kReadingsFormat} +
                       "\",\n  \"reader\": " + ordered_json(reader).dump() + ",\n  \"readings\": [";
    const char* before = "\n    ";
    for (const auto& one : readings) {
        ordered_json line = {
            {"question", one.question}, {"edition", trade::to_text(one.edition)}, {"content", one.content}};
        if (!one.agreed_first) line["differed"] = true;
        if (!one.settled.empty()) line["settled"] = one.settled;
        text += before + one_line(line);
        before = ",\n    ";
    }
    return text + "\n  ]\n}\n";
}

}  // namespace content
