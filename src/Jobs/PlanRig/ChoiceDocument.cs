using Athwart.Jobs.CheckTakes;
using Athwart.Microphones.Choosing;

namespace Athwart.Jobs.PlanRig;

/// <summary>A choice as data: what the table, the page and the JSON show. docs/rig.md documents the fields; what is null is not known or not asked.</summary>
public sealed record ChoiceDocument
{
    /// <summary>The version of this layout.</summary>
    public int AthwartChoice { get; init; } = 1;

    /// <summary>What was asked, one sentence each.</summary>
    public required IReadOnlyList<string> Asked { get; init; }

    /// <summary>The coverage wanted; null when none was.</summary>
    public double? WantedCoverageDegrees { get; init; }

    /// <summary>The pairs that do, the best first.</summary>
    public required IReadOnlyList<ChoiceRow> Ranked { get; init; }

    /// <summary>The pairs that do not, with what they fail at.</summary>
    public required IReadOnlyList<RejectedRow> Rejected { get; init; }

    /// <summary>What is to be known about the whole.</summary>
    public required IReadOnlyList<string> Remarks { get; init; }

    /// <summary>From the outcome of a search.</summary>
    public static ChoiceDocument Of(Choice choice, Wishes wishes, IReadOnlyList<string> asked)
    {
        ArgumentNullException.ThrowIfNull(choice);
        ArgumentNullException.ThrowIfNull(wishes);
        return new()
        {
            Asked = asked,
            WantedCoverageDegrees = wishes.Coverage?.Value,
            Ranked = [.. choice.Ranked.Select(Row)],
            Rejected = [.. choice.Rejected.Select(r => new RejectedRow(r.Mid.Name, r.Side.Name, r.Recorder?.Name, [.. r.Shortfalls.Select(s => new ShortfallRow(JsonNumber.Word(s.Constraint.ToString()), s.By is { } by ? Math.Round(by, 4) : null, s.Unit, s.Text))]))],
            Remarks = choice.Remarks,
        };
    }

    private static ChoiceRow Row(PairChoice p) => new()
    {
        Place = p.Place,
        Rig = RigWords.Of(p.Mid.Name, p.Side.Name, p.SideLevel),
        Mid = p.Mid.Name,
        Side = p.Side.Name,
        Recorder = p.Recorder?.Name,
        SideLevelDecibels = R(p.SideLevel.Value),
        CoverageDegrees = R(p.Coverage?.Value),
        CoverageErrorDegrees = R(p.CoverageErrorDegrees),
        NoiseDecibelsA = R(p.NoiseDecibelsA),
        MonoNoiseDecibelsA = R(p.MonoNoiseDecibelsA),
        MidGainDecibels = R(p.MidGainDecibels),
        SideGainDecibels = R(p.SideGainDecibels),
        ToBuy = [.. p.ToBuy.Select(b => b.Price is { } price ? $"{b.Name}: {price}" : $"{b.Name}: price not known")],
        Cost = [.. p.Cost.Select(c => new CostRow(c.Amount, c.Currency))],
        WeightGrams = p.WeightGrams,
        NotKnown = p.NotKnown,
        Points = [.. p.Parts.Select(s => new PointsRow(JsonNumber.Word(s.Matter.ToString()), s.Weight, Math.Round(s.Points, 4)))],
        Score = Math.Round(p.Score, 4),
        TradeOff = p.IsTradeOff,
        Reason = p.Reason,
    };

    private static double? R(double? value) => JsonNumber.Finite(value, 4);
}

/// <summary>A pair that does.</summary>
public sealed record ChoiceRow
{
    /// <summary>Its place, from 1.</summary>
    public required int Place { get; init; }

    /// <summary>The rig in one line, as `rig show`, `rig compare` and `rig sheet` read it.</summary>
    public required string Rig { get; init; }

    /// <summary>The mid.</summary>
    public required string Mid { get; init; }

    /// <summary>The side.</summary>
    public required string Side { get; init; }

    /// <summary>The recorder it does best with.</summary>
    public string? Recorder { get; init; }

    /// <summary>The side level to decode at; null for no side at all.</summary>
    public required double? SideLevelDecibels { get; init; }

    /// <summary>The coverage at that level.</summary>
    public double? CoverageDegrees { get; init; }

    /// <summary>How far from the wanted one.</summary>
    public double? CoverageErrorDegrees { get; init; }

    /// <summary>Noise of left and right.</summary>
    public double? NoiseDecibelsA { get; init; }

    /// <summary>Noise of the mono fold.</summary>
    public double? MonoNoiseDecibelsA { get; init; }

    /// <summary>The mid's gain.</summary>
    public double? MidGainDecibels { get; init; }

    /// <summary>The side's gain.</summary>
    public double? SideGainDecibels { get; init; }

    /// <summary>What has to be bought.</summary>
    public required IReadOnlyList<string> ToBuy { get; init; }

    /// <summary>What that costs, a row for each currency.</summary>
    public required IReadOnlyList<CostRow> Cost { get; init; }

    /// <summary>What hangs on the boom.</summary>
    public double? WeightGrams { get; init; }

    /// <summary>What was asked and cannot be answered.</summary>
    public required IReadOnlyList<string> NotKnown { get; init; }

    /// <summary>The points by matter; lower is better.</summary>
    public required IReadOnlyList<PointsRow> Points { get; init; }

    /// <summary>Their sum.</summary>
    public required double Score { get; init; }

    /// <summary>Whether nobody beats it in cost, noise and coverage together.</summary>
    public required bool TradeOff { get; init; }

    /// <summary>Why it is where it is.</summary>
    public required string Reason { get; init; }
}

/// <summary>A pair that does not.</summary>
public sealed record RejectedRow(string Mid, string Side, string? Recorder, IReadOnlyList<ShortfallRow> FailsAt);

/// <summary>What it fails at and by how much.</summary>
public sealed record ShortfallRow(string Constraint, double? By, string Unit, string Text);

/// <summary>A sum in one currency.</summary>
public sealed record CostRow(decimal Amount, string Currency);

/// <summary>What a matter adds to the score.</summary>
public sealed record PointsRow(string Matter, double Weight, double Points);
