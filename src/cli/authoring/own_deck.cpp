#include "cli/authoring/own_deck.hpp"

#include <algorithm>
#include <filesystem>
#include <system_error>

#include "base/exit_status.hpp"
#include "cli/authoring/trial.hpp"
#include "content/source.hpp"

namespace cli {

using base::Exit;
using base::Failure;
using nlohmann::ordered_json;

ordered_json own_deck(const std::string& library, const std::string& deck) {
    const std::string path = deck_path(library, deck);
    std::error_code error;
    if (!std::filesystem::exists(path, error)) return nullptr;
    const auto text = content::read_source(path);
    if (!text) throw Failure{Exit::bad_data, base::to_text(text.error().front()), text.error().front().mend};
    auto document = ordered_json::parse(*text, nullptr, false);
    if (document.is_object() && document.contains("points") && document["points"].is_array()) return document;
    throw Failure{Exit::bad_data, path + ": this is no deck",
                  "mend it ('greentag library check --library DIR' tells what is wrong) or move it away"};
}

std::map<std::size_t, std::size_t> put_into(ordered_json& into, const ordered_json& from) {
    std::map<std::size_t, std::size_t> places;
    if (into.is_null()) {
        into = from;
        for (std::size_t i = 0; i < from.at("points").size(); ++i) places[i] = i;
        return places;
    }
    // A sheet that says nothing of title and topic has the deck's name there.
    for (const char* key : {"title", "topic"})
        if (from.at(key) != from.at("deck")) into[key] = from.at(key);
    for (const auto& [id, line] : from.at("mistakes").items()) into["mistakes"][id] = line;
    auto& points = into["points"];
    for (std::size_t i = 0; i < from.at("points").size(); ++i) {
        const auto& point = from.at("points")[i];
        const auto same = std::find_if(points.begin(), points.end(),
                                       [&](const ordered_json& one) { return one.value("id", "") == point.at("id"); });
        places[i] = static_cast<std::size_t>(same - points.begin());
        if (same == points.end())
            points.push_back(point);
        else
            *same = point;
    }
    return places;
}

}  // namespace cli
