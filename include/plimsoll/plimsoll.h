/*
 * The whole library: every public header, and what holds for all of them.
 *
 * Order of use: rules -> log -> debrief -> debriefed dives -> report.
 *
 * Threads. The library has no global state that changes, so that what two threads do to different objects never meets.
 *   - What a function takes as const or gives back as const may be read by any number of threads at once, while no
 *     thread changes or frees it: rules, options, dives, traces, decompressions, findings, verdicts, cards, comparisons
 *     with a plan, reconciliations, audits, files, entries and records of a ledger.
 *   - What a function takes without const belongs to one thread at a time: sources, sinks, builders, imports, logs,
 *     debriefs, reports, exports, ledgers and logbooks. It may be handed to another thread between two calls.
 *   - An object is freed once, by one thread, when nobody reads it any more.
 *   - Sinks and callbacks of the caller's are called in the thread that made the call. plm_audit alone has threads of
 *     its own; it says beside each callback who calls it.
 *
 * Ownership. What a _new, _open, _read or _finish puts into *out is the caller's, who frees it with the _free of its
 * kind; NULL may be freed. What a _get or another question returns belongs to the object that was asked.
 *
 * Sizes of buffers and lists, and counts, are size_t. Numbers by which people count (a dive in its log, a line, a day
 * of a run, a compartment) begin at 1, and 0 means none.
 *
 * Options. A struct of options is made by its _default(), where it has one, and then changed field by field; where it
 * has none, by an initializer that names its fields, and zero is what the header says of a field that is not stated. A
 * later version adds fields at the end, and without them does what was done before. Other structs with visible fields
 * are made by the library, unless their header tells how.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_PLIMSOLL_H
#define PLM_PLIMSOLL_H

#include <plimsoll/alignment.h>
#include <plimsoll/api.h>
#include <plimsoll/audit.h>
#include <plimsoll/card.h>
#include <plimsoll/completeness.h>
#include <plimsoll/debrief.h>
#include <plimsoll/decompression.h>
#include <plimsoll/diag.h>
#include <plimsoll/dive.h>
#include <plimsoll/dive_builder.h>
#include <plimsoll/edited.h>
#include <plimsoll/export.h>
#include <plimsoll/findings.h>
#include <plimsoll/gas.h>
#include <plimsoll/import.h>
#include <plimsoll/ledger.h>
#include <plimsoll/ledger_days.h>
#include <plimsoll/log.h>
#include <plimsoll/log_files.h>
#include <plimsoll/logbook.h>
#include <plimsoll/names.h>
#include <plimsoll/nearest.h>
#include <plimsoll/number.h>
#include <plimsoll/past.h>
#include <plimsoll/plan.h>
#include <plimsoll/reconcile.h>
#include <plimsoll/replay.h>
#include <plimsoll/report.h>
#include <plimsoll/report_formats.h>
#include <plimsoll/report_ledger.h>
#include <plimsoll/report_team.h>
#include <plimsoll/review.h>
#include <plimsoll/rules.h>
#include <plimsoll/rules_file.h>
#include <plimsoll/sink.h>
#include <plimsoll/source.h>
#include <plimsoll/stamp.h>
#include <plimsoll/status.h>
#include <plimsoll/text.h>
#include <plimsoll/tissue.h>
#include <plimsoll/trace.h>
#include <plimsoll/verdict.h>
#include <plimsoll/version.h>

#endif
