#pragma once

#include <string>
#include <vector>

#include "content/contents.hpp"
#include "trade/tables.hpp"

/// The typed tables as they are shipped.
[[nodiscard]] inline const trade::Tables& shipped_tables() {
    static const trade::Tables tables = [] {
        const auto contents = content::load_contents(std::vector<std::string>{PROJECT_FOLDER});
        return trade::typed_tables(contents.value().tables).value();
    }();
    return tables;
}
