#include "cli/place_aside.hpp"

#include <filesystem>
#include <system_error>

namespace cli {

std::string place_aside(const std::string& path, const std::string& day) {
    namespace fs = std::filesystem;
    std::error_code error;
    std::string aside = path + ".before-" + day;
    for (int i = 2; fs::exists(aside, error); ++i) aside = path + ".before-" + day + "-" + std::to_string(i);
    return aside;
}

}  // namespace cli
