// @ts-check
"use strict";

/* On narrow screens rows fold into blocks. Some browsers then forget that it is a table; its roles, said aloud, keep it one. */
{
  /**
   * The role that an element of a table has by itself.
   * @param {string} name the element's name, in capitals
   * @param {boolean} headsRow
   */
  const readRole = (name, headsRow) => {
    if (name === "TABLE") return "table";
    if (name === "TR") return "row";
    if (name === "TD") return "cell";
    if (name === "TH") return headsRow ? "rowheader" : "columnheader";
    return "rowgroup";
  };

  /**
   * Says the roles of one table and all in it.
   * @param {Element} table
   */
  const mountRoles = table => {
    for (const element of [table, ...table.querySelectorAll("thead, tbody, tfoot, tr, th, td")]) {
      element.setAttribute("role", readRole(element.tagName, element.getAttribute("scope") === "row"));
    }
  };

  if (typeof module !== "undefined") module.exports = { readRole };
  else for (const table of document.querySelectorAll("table")) mountRoles(table);
}
