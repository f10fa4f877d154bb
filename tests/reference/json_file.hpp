#pragma once

#include <fstream>
#include <string>

#include <nlohmann/json.hpp>

/// Published values beside their sources, one JSON file per table.
namespace reference {

[[nodiscard]] nlohmann::json json_file(const std::string& name);

}  // namespace reference
