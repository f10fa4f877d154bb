#include "report/source_text.hpp"

namespace report {

SourceText source_text(const content::Version& version, trade::Edition edition) {
    if (version.basis.kind == trade::Basis::Kind::practice)
        return {"Trade", "practice of the trade, filed under " + version.article};
    return {"Code", version.article + " (" + std::string{trade::to_text(edition)} + " edition)"};
}

}  // namespace report
