import { MessageBook } from "../../../src/grid/engine/messages";

const cell = { sheetId: "one", row: 4, column: 2 };
const missing = { code: "#N/A", message: "No attempts yet.", functionName: "TWIRL.STREAK" };

describe("messages beside the cells", () => {
  test("a later calculation without the error takes the message away", () => {
    const book = new MessageBook();
    book.beginRun();
    book.fail(cell, missing);
    expect(book.at(cell)?.message).toBe("No attempts yet.");
    book.beginRun();
    book.succeed(cell);
    expect(book.at(cell)).toBeUndefined();
  });

  test("a second call in the same formula does not take the first one's message away", () => {
    const book = new MessageBook();
    book.beginRun();
    book.fail(cell, missing);
    book.succeed(cell);
    expect(book.at(cell)?.message).toBe("No attempts yet.");
  });

  test("only cells that still show the error are listed", () => {
    const book = new MessageBook();
    book.beginRun();
    book.fail(cell, missing);
    book.fail({ ...cell, row: 9 }, missing);
    expect(book.current(({ row }) => (row === 4 ? "#N/A" : "caught by IFERROR"))).toEqual([{ ...cell, ...missing }]);
  });
});
