#pragma once

#include <vector>

#include "content/compose.hpp"
#include "content/library.hpp"

/// The library that is shipped, and everything it can ask.
namespace shipped {

[[nodiscard]] inline const content::Library& library() {
    static const content::Library library = content::open_library({PROJECT_FOLDER}, "").value();
    return library;
}

/// Every question of every point and every call, posed in every edition it holds in.
[[nodiscard]] inline std::vector<content::Ask> all_asks(base::Seed seed) {
    std::vector<content::Ask> all;
    for (const auto edition : trade::kEditions) {
        for (const auto& entry : library().index().points)
            for (const auto* question : content::questions_for(library().point(entry), edition))
                all.push_back(content::compose(library(), entry, *question, edition, seed));
        for (const auto& call : library().index().scenarios)
            if (call.editions.contains(edition))
                for (auto& ask : content::compose_scenario(library(), call, edition, seed))
                    all.push_back(std::move(ask));
    }
    return all;
}

/// The same, kept: posing everything takes a while under the sanitizers.
[[nodiscard]] inline const std::vector<content::Ask>& asks() {
    static const auto all = all_asks(1);
    return all;
}

}  // namespace shipped
