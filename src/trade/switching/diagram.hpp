#pragma once

#include <optional>
#include <string>
#include <vector>

#include "trade/switching/fault.hpp"

namespace trade::switching {

/// What a wiring drawing shows, before it is drawn in one form or another. Everything comes from the circuit as solved.
struct Picture {
    /// The end of a conductor, a lead, a screw. `mark` says in a word what the fault did to it; empty when sound.
    struct Label {
        std::string text;
        std::optional<Colour> colour;
        std::string mark;
    };
    /// What is held together in a box: conductors that come from the source's side, what they land on, conductors that
    /// go on. `centre` is empty for a splice of conductors alone.
    struct Joint {
        std::vector<Label> in, centre, out;
        bool splice = false;
    };
    struct Cable {
        std::size_t number = 0;  ///< from 1
        std::string from, to;
        int insulated = 2;
        bool from_above = true;  ///< `from` is the box drawn just before
        std::vector<Label> conductors;
    };
    struct Box {
        std::string name;
        std::optional<Cable> by;           ///< how it is reached; none for the panel
        std::vector<std::string> devices;  ///< "S1: three-way switch"
        std::vector<Joint> joints;
        std::vector<std::string> faults;  ///< what touches what in this box
    };
    std::string title, about;
    std::string fault;  ///< empty when sound
    std::vector<Box> boxes;
};

[[nodiscard]] Picture picture(const Arrangement& arrangement, const Fault& fault = nothing_wrong());

/// Plain text of at most 76 columns, lines ended by line feeds: boxes as frames, cables between them with every
/// conductor and its colour, what lands on what. A fault is marked by x at its place and named at the end when
/// `name_fault`.
[[nodiscard]] std::string diagram(const Arrangement& arrangement, const Fault& fault = nothing_wrong(),
                                  bool name_fault = true);

}  // namespace trade::switching
