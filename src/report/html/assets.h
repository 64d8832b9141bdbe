/*
 * The style sheet and the script of the pages, made from html.css and html.js by the build. Terminated.
 * SPDX-License-Identifier: MIT
 */
#ifndef PLM_REPORT_HTML_ASSETS_H
#define PLM_REPORT_HTML_ASSETS_H

extern const char plmi_html_css[];
extern const char plmi_html_js[];

#endif
