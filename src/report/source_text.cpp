#include "report/source_text.hpp"

namespace report {

SourceText source_text(const content::Ask& ask) {
    if (ask.version.basis.kind == trade::Basis::Kind::practice)
        return {"Trade", "practice of the trade, filed under " + ask.version.article};
    return {"Code", ask.version.article + " (" + std::string{trade::to_text(ask.edition)} + " edition)"};
}

}  // namespace report
