namespace Athwart.Jobs.Shape;

/// <summary>What a field of a step holds.</summary>
public enum StepFieldKind
{
    /// <summary>A number; '-inf' for minus infinity where the step allows it.</summary>
    Number = 0,

    /// <summary>'true' or 'false'.</summary>
    YesNo,

    /// <summary>One of its choices.</summary>
    Choice,

    /// <summary>Entries with ';' between, numbers of one with blanks between: '100 -3; 1000 0'.</summary>
    Entries,
}

/// <summary>One field of a step, as a form shows it.</summary>
/// <param name="Name">Its name in JSON.</param>
/// <param name="Words">What it is, in words.</param>
/// <param name="Unit">Its unit; empty for none.</param>
/// <param name="Kind">What it holds.</param>
/// <param name="Text">What it is now; empty where nothing is said.</param>
/// <param name="Choices">What can be chosen; empty unless it is a choice.</param>
/// <param name="Parts">The names of the numbers of one entry, in their order; empty unless it holds entries of several.</param>
public sealed record StepField(string Name, string Words, string Unit, StepFieldKind Kind, string Text, IReadOnlyList<string> Choices, IReadOnlyList<string> Parts);
