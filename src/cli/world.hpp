#pragma once

#include <cstddef>
#include <functional>
#include <iosfwd>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "base/instant.hpp"
#include "base/random.hpp"

namespace cli {

/// Lines a person types, or a pipe gives.
class Input {
public:
    Input() = default;
    Input(const Input&) = delete;
    Input& operator=(const Input&) = delete;
    virtual ~Input() = default;
    /// The next line without its end; nothing at the end of input or when the person broke off (Ctrl-C, Ctrl-D).
    virtual std::optional<std::string> line() = 0;
};

/// Everything the program takes from outside. main() fills it from the real machine, tests from what they like.
struct World {
    std::function<base::Instant()> clock;
    base::Seed entropy = 0;
    std::map<std::string, std::string> environment;
    std::string program;  ///< path of the running program, links followed; to find the content beside it
    Input* input = nullptr;
    std::ostream* out = nullptr;
    std::ostream* err = nullptr;
    bool input_is_terminal = false;
    bool output_is_terminal = false;
    std::function<std::size_t()> columns;  ///< width of the terminal now; 0 when unknown
};

/// Runs one command line (without the program's name) and gives the exit status.
int run(const World& world, const std::vector<std::string>& arguments);

}  // namespace cli
