#pragma once
// The papers of a visit as documents: what is poured, what was done, what to do at home, what it
// costs, what is agreed to, how to arrive.
#include <chrono>
#include <optional>
#include <string>
#include <string_view>

#include "huewright/base/executor.h"
#include "huewright/base/language.h"
#include "huewright/book/client.h"
#include "huewright/book/next_case.h"
#include "huewright/book/salon.h"
#include "huewright/book/visit.h"
#include "huewright/plan/learn.h"
#include "huewright/sheets/document.h"
#include "huewright/wire/plan_answer.h"

namespace hw::sheets {

/// What a sheet is written from.
struct VisitPapers {
  book::SalonFact salon;
  book::ClientState client;
  book::VisitState visit;
  std::vector<book::OnShelf> shelf;
  std::optional<wire::PlanAnswer> plan;  ///< of the case that was stored; none: nothing is planned
  std::size_t course = 0;                ///< which was chosen, index
  std::string weeks_png;                 ///< fade chart of it; empty: left out
  std::string day_png;                   ///< strand chart of it; empty: left out
  std::chrono::year_month_day today{};
  Language language = Language::en;
  plan::Learned learned;  ///< what the plan rests on beside its case
  std::string planner;    ///< who chose it
};

/// What the book has for the papers of a visit. language: none: the client's own, or English where
/// it is none of ours. Errors: unknown_name, io.
[[nodiscard]] Result<VisitPapers> papers_of(book::Store& store, const std::string& visit,
                                            std::chrono::year_month_day today,
                                            std::optional<Language> language = {});

/// Plans again from the case that was stored, and draws the charts of the chosen course; needs no
/// book. Without a plan nothing is done. Errors: those of the stored case.
[[nodiscard]] Result<void> plan_papers(VisitPapers& papers, Executor& executor);

enum class SheetKind { bowls, card, aftercare, quote, consent, before };
/// "bowls", "card", "aftercare", "quote", "consent", "before". Error: unknown_name (lists them).
[[nodiscard]] Result<SheetKind> sheet_named(std::string_view word);

/// A sheet. Every one ends with what every plan ends with. A bowl sheet while a refusal stands is
/// refused (conflict: names the refusal); so are bowls, aftercare and quote where nothing is
/// planned (missing).
[[nodiscard]] Result<Document> sheet_of(SheetKind kind, const VisitPapers& papers);

}  // namespace hw::sheets
