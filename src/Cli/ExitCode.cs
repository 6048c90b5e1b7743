namespace Athwart.Cli;

/// <summary>What the program's exit code means; docs/exit-codes.md tells scripts.</summary>
internal static class ExitCode
{
    /// <summary>Done.</summary>
    public const int Done = 0;

    /// <summary>Done, and a fault was found: by 'check' in a take, by 'verify' in a delivery, by 'take-in' on a card.</summary>
    public const int FaultFound = 1;

    /// <summary>The command was written wrong, or names something that is not there.</summary>
    public const int WrongUse = 2;

    /// <summary>A recording cannot be read.</summary>
    public const int UnreadableRecording = 3;

    /// <summary>The library or the disk cannot be used.</summary>
    public const int Storage = 4;

    /// <summary>Refused, because going on would lose or spoil something.</summary>
    public const int Refused = 5;

    /// <summary>A fault of the program itself.</summary>
    public const int Internal = 70;

    /// <summary>Cancelled, by Ctrl-C as a rule.</summary>
    public const int Cancelled = 130;
}
