/**
 * What the add-in's page says before there is a pane. Not by way of the language, which would bring all that the pane says
 * into a page that Excel loads, unseen, with every workbook that calls a function.
 */
export { excelWords, type Notice } from "./english/excel-words.js";
