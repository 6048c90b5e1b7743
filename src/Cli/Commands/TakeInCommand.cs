using System.CommandLine;
using System.Globalization;
using Athwart.Cli.Output;
using Athwart.Jobs.Sessions;
using Athwart.Jobs.TakeIn;

namespace Athwart.Cli.Commands;

/// <summary><c>take-in</c>: a safe copy of a card into the library.</summary>
internal static class TakeInCommand
{
    public const string Summary = "Copy a card into the library: hashed while it is copied, read back from the disk and compared, then made read-only. Run again, it goes on where it stopped and adds nothing twice.";

    public static Command Create(Screen screen)
    {
        var card = new Argument<string[]>("CARD") { Description = "The card's folder, or loose recordings. It is only read.", Arity = ArgumentArity.OneOrMore };
        var library = CommonOptions.Library();
        var session = new Option<string>("--session") { Description = "What the session is called.", HelpName = "NAME", Required = true };
        var date = new Option<DateOnly?>("--date")
        {
            Description = "The day of the recording, yyyy-mm-dd; today unless said.",
            HelpName = "DATE",
            CustomParser = result =>
            {
                if (DateOnly.TryParseExact(result.Tokens[0].Value, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day))
                    return day;
                result.AddError($"'{result.Tokens[0].Value}' is no date. Write it as 2026-05-14.");
                return null;
            },
        };
        var command = new ExampledCommand(
            "take-in",
            Summary,
            "athwart take-in /media/card --library lib --session \"Lock, spring\" --date 2026-05-14")
        { card, library, session, date };
        command.SetAction((parsed, cancellation) => Task.FromResult(Failures.Run(screen, () => Run(screen, new()
        {
            Sources = parsed.GetValue(card)!,
            LibraryFolder = parsed.GetValue(library)!,
            SessionName = parsed.GetValue(session)!,
            Date = parsed.GetValue(date) ?? DateOnly.FromDateTime(TimeProvider.System.GetLocalNow().DateTime),
        }, cancellation))));
        return command;
    }

    private static int Run(Screen screen, TakeInRequest request, CancellationToken cancellation)
    {
        TakeInReport report;
        using (var progress = new ProgressLine(screen))
            report = new TakeInJob().Run(request, new TakeInProgressLine(progress), cancellation);
        Write(screen, report, showNext: false);
        Takes(screen, report, cancellation);
        if (report.Cancelled)
            return ExitCode.Cancelled;
        return report.Complete ? ExitCode.Done : report.DiskFull ? ExitCode.Storage : ExitCode.FaultFound;
    }

    /// <summary>What became of the card.</summary>
    public static void Write(Screen screen, TakeInReport report, bool showNext = true)
    {
        foreach (var file in report.Files.Where(f => f.Message.Length > 0))
            screen.Line($"  {file.CardPath}: {file.Message}");
        foreach (var entry in report.Skipped)
            screen.Line($"  left alone: {entry.CardPath}: {entry.Message}");
        int Count(TakenFileStatus status) => report.Files.Count(f => f.Status == status);
        screen.Line(string.Create(
            CultureInfo.InvariantCulture,
            $"{Count(TakenFileStatus.Copied)} files copied ({report.BytesCopied / 1e6:0.0} MB in {report.Elapsed.TotalSeconds:0.0} s) and {ReadBack(report.ReadBack)}, {Count(TakenFileStatus.AlreadyHere) + Count(TakenFileStatus.Adopted)} here already, {Count(TakenFileStatus.Failed)} failed, {Count(TakenFileStatus.NotReached)} not reached."));
        if (report.Cancelled || report.DiskFull)
            screen.Line("What was copied is sound. Run the same command again to go on.");
        else if (showNext)
            screen.Line($"Next: athwart check --library \"{report.LibraryFolder}\" --session \"{report.Session.Name}\"");
    }

    // The takes are put together at once, so that the recordist sees what the card held before it is wiped.
    private static void Takes(Screen screen, TakeInReport report, CancellationToken cancellation)
    {
        if (report.Cancelled || report.DiskFull)
            return;
        var takes = ListJob.Session(report.LibraryFolder, report.Session.Id.Value, cancellation).Takes;
        screen.Line(string.Create(CultureInfo.InvariantCulture, $"Session '{report.Session.Name}' holds {takes.Takes.Count} takes."));
        TakeTables.Refused(screen, takes.Refused);
        screen.Line($"Next: athwart check --library \"{report.LibraryFolder}\" --session \"{report.Session.Name}\"");
    }

    private static string ReadBack(ReadBackSource source) => source switch
    {
        ReadBackSource.Disk => "read back from the disk",
        ReadBackSource.SystemCache => "read back (the system's cache may have answered)",
        _ => "nothing read back",
    };

    private sealed class TakeInProgressLine(ProgressLine line) : IProgress<TakeInProgress>
    {
        public void Report(TakeInProgress value) => line.Report(new(
            string.Create(CultureInfo.InvariantCulture, $"file {Math.Min(value.FilesDone + 1, value.FilesTotal)} of {value.FilesTotal}: {value.CurrentFile}"),
            value.BytesDone,
            value.BytesTotal,
            "bytes"));
    }
}
