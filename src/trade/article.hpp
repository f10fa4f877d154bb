#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace trade {

/// A reference into the code: article, section, and the subdivisions below it.
struct Article {
    int article = 0;                 ///< 90 to 999
    int section = 0;                 ///< the number behind the point; 0 for a whole article
    std::vector<std::string> parts;  ///< "A", "4", "a", as far as the reference goes

    friend bool operator==(const Article&, const Article&) = default;
};

/// Reads any customary spelling: "210.8(A)(4)", "210-8 a 4", "art. 210.8", "Article 210", "NEC 210.8 (a)(4)", "Sec.
/// 250.122". Nothing when the text is no reference.
[[nodiscard]] std::optional<Article> parse_article(std::string_view text);

/// "210.8(A)(4)"; a whole article as "Article 210".
[[nodiscard]] std::string to_text(const Article& article);

enum class ArticleMatch : std::uint8_t {
    exact,    ///< the same reference, letters compared without regard to case
    deeper,   ///< goes further down than the reference but through it
    shorter,  ///< stops above the reference but on its way
    section,  ///< the right section, a wrong subdivision
    article,  ///< the right article only
    apart,
};

/// How the given reference stands to the wanted one.
[[nodiscard]] ArticleMatch compare(const Article& given, const Article& wanted);

}  // namespace trade
