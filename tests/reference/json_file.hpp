#pragma once

#include <fstream>
#include <string>

#include <nlohmann/json.hpp>

/// Published values beside their sources, one JSON file per table.
namespace reference {

[[nodiscard]] inline nlohmann::json json_file(const std::string& name) {
    std::ifstream in{PROJECT_FOLDER "/tests/reference/" + name};
    return nlohmann::json::parse(in);
}

}  // namespace reference
