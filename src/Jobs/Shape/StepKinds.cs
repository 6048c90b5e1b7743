using Athwart.Signals.Shaping;

namespace Athwart.Jobs.Shape;

/// <summary>Every kind of step there is.</summary>
public static class StepKinds
{
    private static readonly StepSettingsJson Json = StepSettingsJson.Default;

    /// <summary>The kinds, in the order a treatment mostly has them.</summary>
    public static IReadOnlyList<StepKind> All { get; } =
    [
        new StepKind<Swap>("swap", "Mid becomes side and side becomes mid.", Json.Swap, static _ => PairRoles.Both, static (_, _) => new SwapStage()),
        new StepKind<Invert>("invert", "Turns the polarity over; of the side, it exchanges left and right.", Json.Invert, static s => s.Roles, static (s, _) => new InvertStage(s)),
        new StepKind<Trim>("trim", "Raises or lowers by a fixed number of decibels.", Json.Trim, static s => s.Roles, static (s, _) => new TrimStage(s)),
    ];

    /// <summary>The kind of this name, or null.</summary>
    public static StepKind? Find(string? name) => All.FirstOrDefault(k => string.Equals(k.Name, name, StringComparison.Ordinal));
}
