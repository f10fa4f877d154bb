#pragma once

#include <string>
#include <vector>

#include "practice/session.hpp"
#include "report/style.hpp"

namespace report {

/// Progress as the circuit directory inside a panelboard door: numbered rows, odd numbers left and even right, each
/// topic a circuit with its load (recall now) and its state in words: closed, due, tripped (sure and wrong), spare (not
/// begun). On a page under 64 columns the two columns stand one below the other; under 30 the frame is left out.
[[nodiscard]] std::vector<std::string> panel_directory(const std::vector<practice::TopicStanding>& topics,
                                                       const Page& page);

/// The state of a circuit in one word.
[[nodiscard]] std::string circuit_state(const practice::TopicStanding& topic);

}  // namespace report
