#include "plan_chart.h"

#include "huewright/plan/lift_chart.h"
#include "huewright/sheets/strand_chart_png.h"

namespace hw::apps {

Result<void> draw_plan(const plan::Case& head, const plan::LiftPlan& plan, const std::string& path,
                       bool shadows_lifted, Executor& executor) {
  const plan::LiftOption* option = !plan.options.empty()    ? &plan.options.front()
                                   : !plan.left_out.empty() ? &plan.left_out.front()
                                                            : nullptr;
  if (option == nullptr || option->minutes <= 0) {
    return fail(ErrorCode::unreachable, "there is nothing to lift, so nothing to draw", "--chart",
                "leave the option out");
  }
  constexpr std::size_t kColumns = 240;
  constexpr std::size_t kRows = 240;
  const auto chart = plan::strand_chart(plan::chart_course(head, plan, *option), kColumns, kRows,
                                        head.ladder, executor);
  sheets::ChartPicture picture;
  picture.title = option->recipe.words;
  if (option->applications > 1) picture.title += ", fresh mix at half time";
  if (plan.options.empty()) picture.title = "Not to be done: " + picture.title;
  picture.shadows_lifted = shadows_lifted;
  return sheets::write_strand_chart_png(chart, picture, path);
}

}  // namespace hw::apps
