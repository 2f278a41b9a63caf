#pragma once
// The report of `plan`, 80 columns.
#include <string>

#include "huewright/wire/plan_answer.h"
#include "look.h"

namespace hw::apps {

[[nodiscard]] std::string plan_report(const Look& look, const wire::PlanAnswer& answer);

}  // namespace hw::apps
