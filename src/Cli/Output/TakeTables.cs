using System.Globalization;
using Athwart.Jobs.Sessions;
using Athwart.Quantities;
using Athwart.Recordings;
using Spectre.Console;

namespace Athwart.Cli.Output;

/// <summary>Tables of sessions and takes.</summary>
internal static class TakeTables
{
    public static void Sessions(Screen screen, IReadOnlyList<SessionSummary> sessions)
    {
        if (sessions.Count == 0)
        {
            screen.Line("The library holds no session yet. Next: athwart take-in CARD --library DIR --session NAME");
            return;
        }

        var table = Plain("Session", "Date", "Takes", "Cuts", "Id");
        foreach (var s in sessions)
            table.AddRow(Markup.Escape(s.Session.Name), s.Session.Date.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture), Number(s.Takes), Number(s.Effects), s.Session.Id.Value);
        screen.Console.Write(table);
    }

    public static void Session(Screen screen, SessionContents contents)
    {
        var table = Plain("Take", "Length", "Rate", "Word", "Made of", "Found", "Cuts");
        foreach (var take in contents.Takes.Takes)
        {
            var d = take.Description;
            table.AddRow(
                Markup.Escape(take.Name),
                Seconds(d),
                Number(d.SampleRateHertz) + " Hz",
                SessionLoader.FormatText(d.Format),
                MadeOf(d),
                Found(contents.Found[take.Name]),
                Markup.Escape(string.Join(", ", contents.Effects[take.Name].Select(e => e.Name))));
        }

        screen.Console.Write(table);
        Refused(screen, contents.Takes.Refused);
    }

    public static void Roles(Screen screen, SessionTakes session)
    {
        var table = Plain("Take", "Mid", "Side", "Side inverted", "Decided by");
        foreach (var take in session.Takes)
            table.AddRow(Markup.Escape(take.Name), Channel(take.Roles.MidChannel), Channel(take.Roles.SideChannel), take.Roles.SideInverted ? "yes" : "no", Markup.Escape(take.Roles.Explanation));
        screen.Console.Write(table);
    }

    public static void Refused(Screen screen, IReadOnlyList<RefusedFile> refused)
    {
        foreach (var file in refused)
            screen.Line($"refused: {file.Error.Message}");
    }

    /// <summary>A table with rules only under the heading, which reads the same on a screen, in a log and in a pipe.</summary>
    public static Table Plain(params string[] columns)
    {
        var table = new Table { Border = TableBorder.Simple };
        foreach (var column in columns)
            table.AddColumn(new TableColumn(Markup.Escape(column)));
        return table;
    }

    public static string Seconds(TakeDescription take) =>
        string.Create(CultureInfo.InvariantCulture, $"{(double)take.FrameCount / take.SampleRateHertz:0.0} s");

    public static string Channel(int? channel) => channel is { } c ? string.Create(CultureInfo.InvariantCulture, $"channel {c + 1}") : "none";

    // 'nothing' would be a lie of a take that was never checked.
    private static string Found(IEnumerable<(FindingSeverity Severity, int Count)> found) =>
        string.Join(", ", found.OrderByDescending(f => f.Severity).Select(f => $"{Number(f.Count)} {f.Severity.ToString().ToLowerInvariant()}{(f.Count == 1 ? "" : "s")}"));

    private static string MadeOf(TakeDescription take) => take.Join switch
    {
        JoinKind.MonoPair => "2 mono files",
        JoinKind.Split => Number(take.Parts.Count) + " pieces",
        JoinKind.SplitMonoPair => Number(take.Parts.Count) + " mono pieces",
        _ => take.ChannelCount == 1 ? "1 mono file" : "1 file",
    };

    private static string Number(int value) => value.ToString(CultureInfo.InvariantCulture);
}
