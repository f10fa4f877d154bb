#include "reference/json_file.hpp"

namespace reference {

nlohmann::json json_file(const std::string& name) {
    std::ifstream in{PROJECT_FOLDER "/tests/reference/" + name};
    return nlohmann::json::parse(in);
}

}  // namespace reference
