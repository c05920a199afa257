#pragma once

#include "evidence-core/judgement/finding/finder.h"

/// Private to judgement/finding/: one finder for each family of kinds, in the file of its name.
namespace evidence::judgement {

void findConflicts(const Judged& judged, std::vector<Finding>& findings);
void findLikelyMistakes(const Judged& judged, std::vector<Finding>& findings);
void findOpenLoops(const Judged& judged, std::vector<Finding>& findings);
void findExcludingLimits(const Judged& judged, std::vector<Finding>& findings);
void findOutsideReadings(const Judged& judged, std::vector<Finding>& findings);
void findGuesses(const Judged& judged, std::vector<Finding>& findings);
void findThinEvidence(const Judged& judged, std::vector<Finding>& findings);
void findEchoes(const Judged& judged, std::vector<Finding>& findings);
void findCircles(const Judged& judged, std::vector<Finding>& findings);
void findUndetermined(const Judged& judged, std::vector<Finding>& findings);
void findScaleFaults(const Judged& judged, std::vector<Finding>& findings);
void findPlaneFaults(const Judged& judged, std::vector<Finding>& findings);
void findStateFaults(const Judged& judged, std::vector<Finding>& findings);
void findPartFaults(const Judged& judged, std::vector<Finding>& findings);
void findDefaults(const Judged& judged, std::vector<Finding>& findings);
void findTolerances(const Judged& judged, std::vector<Finding>& findings);
void findRulingFaults(const Judged& judged, std::vector<Finding>& findings);
void findSlipFaults(const Judged& judged, std::vector<Finding>& findings);
void findDepartures(const Judged& judged, std::vector<Finding>& findings);
void findOpenQueries(const Judged& judged, std::vector<Finding>& findings);
void findLoweredGrades(const Judged& judged, std::vector<Finding>& findings);
void findDisagreeing(const Judged& judged, std::vector<Finding>& findings);
void findFileFaults(const Judged& judged, std::vector<Finding>& findings);
void findMissingReasons(const Judged& judged, std::vector<Finding>& findings);

}  // namespace evidence::judgement
