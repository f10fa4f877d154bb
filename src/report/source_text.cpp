#include "report/source_text.hpp"

namespace report {

SourceText source_text(const content::Version& version, trade::Edition edition) {
    if (version.basis.kind == trade::Basis::Kind::practice)
        return {"Trade", "practice of the trade, filed under " + version.article};
    return {"Code", version.article + " (" + std::string{trade::to_text(edition)} + " edition)"};
}

std::string basis_text(const trade::Basis& basis) {
    switch (basis.kind) {
        case trade::Basis::Kind::published:
            return "published: " + basis.source;
        case trade::Basis::Kind::practice:
            return "practice of the trade";
        case trade::Basis::Kind::memory:
            return "from memory; verify against the adopted edition";
    }
    return {};
}

}  // namespace report
