using Athwart.Microphones.Equipment;
using Athwart.Microphones.Levels;
using Athwart.Microphones.Patterns;
using Athwart.Quantities;
using static System.FormattableString;

namespace Athwart.Microphones.Choosing;

/// <summary>Holds a candidate against what is asked: what it fails at, by how much, and what is not known.</summary>
internal static class Checks
{
    private static readonly Hertz Reference = new(1000);

    public static void Run(Candidate candidate, Wishes wishes, ChannelGain? mid, ChannelGain? side, Purse purse)
    {
        if (ReferenceEquals(candidate.Mid.Microphone, candidate.Side.Microphone) && candidate.Mid.Microphone.Count < 2)
            Fail(candidate, Constraint.OneUnit, null, "", $"there is only one {candidate.Mid.Microphone.Name}: it cannot be mid and side at once");
        Coverage(candidate, wishes);
        Cost(candidate, wishes, purse);
        Levels(candidate, wishes, mid, side);
        Fit(candidate, wishes);
        MonoPickup(candidate, wishes);
        Highest(candidate, wishes);
        Inputs(candidate, wishes);
    }

    private static void Coverage(Candidate candidate, Wishes wishes)
    {
        if (wishes.Coverage is not { } wanted)
            return;
        if (candidate.CoverageError is not { } error)
            Fail(candidate, Constraint.Coverage, null, "", Invariant($"no side level looked at makes a sound come from one side alone ({wishes.Threshold.Value:0.#} dB apart)"));
        else if (error > PairSearch.FarthestDegrees)
            Fail(candidate, Constraint.Coverage, error, "°", Invariant($"the nearest coverage is {candidate.Coverage!.Value.Value:0}°, {error:0}° from the wanted {wanted.Value:0}°"));
    }

    private static void Cost(Candidate candidate, Wishes wishes, Purse purse)
    {
        foreach (var purchase in candidate.ToBuy)
        {
            if (purchase.Price is not { } price)
                candidate.NotKnown.Add($"price of {purchase.Name} not known");
            else if (!string.Equals(price.Currency, purse.Currency, StringComparison.Ordinal))
                OtherCurrency(candidate, wishes, purse, purchase.Name, price);
        }

        // What is known already may be too much, whatever the rest costs.
        var known = candidate.Cost.FirstOrDefault(p => string.Equals(p.Currency, purse.Currency, StringComparison.Ordinal)).Amount;
        if (wishes.Budget is { } budget && known > budget.Amount)
            Fail(candidate, Constraint.Budget, (double)(known - budget.Amount), budget.Currency, Invariant($"what has to be bought costs {known:0.##} {budget.Currency}, {known - budget.Amount:0.##} more than there is"));
    }

    private static void OtherCurrency(Candidate candidate, Wishes wishes, Purse purse, string name, Price price)
    {
        if (wishes.Budget is not null)
            Fail(candidate, Constraint.Currency, null, "", $"{name} is priced in {price.Currency}, the budget is in {purse.Currency}: give its price in {purse.Currency}");
        else
            candidate.NotKnown.Add($"price of {name} in {purse.Currency} not known, only in {price.Currency}");
    }

    private static void Levels(Candidate candidate, Wishes wishes, ChannelGain? mid, ChannelGain? side)
    {
        if (candidate.Noise is null && (wishes.QuietestDecibels is not null || wishes.Matters.Contains(Matter.Noise)))
            candidate.NotKnown.Add("noise not known, not ranked by noise");
        if (wishes.QuietestDecibels is { } quietest && candidate.Noise is { } noise && quietest - noise < wishes.QuietMarginDecibels)
        {
            var missing = wishes.QuietMarginDecibels - (quietest - noise);
            Fail(candidate, Constraint.Quietest, missing, "dB", Invariant($"its noise of {noise:0.0} dBA leaves {quietest - noise:0.0} dB below the quietest sound of {quietest:0.#} dB, {missing:0.0} dB less than wanted"));
        }

        if (wishes.Loudest is not { } loudest)
            return;
        Overload(candidate, candidate.Mid, "mid", mid, loudest);
        Overload(candidate, candidate.Side, "side", side, loudest);
    }

    private static void Overload(Candidate candidate, MicrophoneChoice choice, string role, ChannelGain? channel, LoudestSound loudest)
    {
        if (choice.Setting.MaximumLevelDecibels is not { } maximum)
            candidate.NotKnown.Add($"maximum level of {choice.Name} not known");
        else if (maximum < loudest.SineDecibels)
            Fail(candidate, Constraint.MicrophoneOverload, loudest.SineDecibels - maximum, "dB", Invariant($"the loudest sound peaks {loudest.SineDecibels - maximum:0.0} dB above what the {role} takes"));
        if (channel is null)
            return;
        if (channel.InputMarginAtLowestGainDecibels is not { } margin)
            candidate.NotKnown.Add($"gain of the {role} not known");
        else if (margin < 0)
            Fail(candidate, Constraint.InputOverload, -margin, "dB", Invariant($"the loudest sound peaks {-margin:0.0} dB above what the {role}'s input takes at its lowest gain"));
    }

    private static void Fit(Candidate candidate, Wishes wishes)
    {
        if (wishes.Protection is { } protection)
        {
            var fit = ProtectionFit.Of(candidate.Mid.Microphone, candidate.Side.Microphone, protection);
            if (fit.TooLongMillimetres is > 0 and var longer)
                Fail(candidate, Constraint.Protection, longer, "mm", Invariant($"it is {longer:0} mm too long for {protection.Name}"));
            if (fit.TooWideMillimetres is > 0 and var wider)
                Fail(candidate, Constraint.Protection, wider, "mm", Invariant($"it is {wider:0} mm too wide for {protection.Name}"));
            if (fit.TooLongMillimetres is null || fit.TooWideMillimetres is null)
                candidate.NotKnown.Add($"whether it fits into {protection.Name} not known");
        }

        if (candidate.Weight is null && (wishes.MostGrams is not null || wishes.Matters.Contains(Matter.Weight)))
            candidate.NotKnown.Add("weight not known");
        if (wishes.MostGrams is { } most && candidate.Weight > most)
            Fail(candidate, Constraint.Weight, candidate.Weight.Value - most, "g", Invariant($"it weighs {candidate.Weight:0} g, {candidate.Weight - most:0} g more than wanted"));
    }

    private static void MonoPickup(Candidate candidate, Wishes wishes)
    {
        if (wishes.MonoPickup is not { } widest)
            return;
        var arc = PatternFigures.Of(candidate.Mid.Setting.Pattern, Reference).ArcMinus6?.Value ?? 360;
        if (arc > widest.Value)
            Fail(candidate, Constraint.MonoPickup, arc - widest.Value, "°", Invariant($"its mid hears {arc:0}° wide (to −6 dB), {arc - widest.Value:0}° more than wanted"));
    }

    private static void Highest(Candidate candidate, Wishes wishes)
    {
        if (wishes.Highest is not { } wanted)
            return;
        Reach(candidate, wanted, candidate.Mid.Setting.HighHertz, $"the mid {candidate.Mid.Name}");
        Reach(candidate, wanted, candidate.Side.Setting.HighHertz, $"the side {candidate.Side.Name}");
        // Converters leave the last tenth below half the rate to their filters; common practice, no source.
        if (candidate.Recorder is { } recorder)
            Reach(candidate, wanted, recorder.MaximumRateHertz * 0.45, $"the recorder {recorder.Name}");
    }

    private static void Reach(Candidate candidate, Hertz wanted, double? reached, string what)
    {
        if (reached is not { } hertz)
            candidate.NotKnown.Add($"high end of {what} not known");
        else if (hertz < wanted.Value)
            Fail(candidate, Constraint.Highest, wanted.Value - hertz, "Hz", Invariant($"{what} reaches {hertz / 1000:0.#} kHz, {(wanted.Value - hertz) / 1000:0.#} kHz less than wanted"));
    }

    private static void Inputs(Candidate candidate, Wishes wishes)
    {
        if (candidate.Recorder is not { } recorder)
            return;
        if (recorder.InputCount < 2)
            Fail(candidate, Constraint.Recorder, 2 - recorder.InputCount.Value, "inputs", $"{recorder.Name} has too few inputs for a pair");
        var drawn = candidate.Mid.Microphone.PhantomMilliamperes + candidate.Side.Microphone.PhantomMilliamperes;
        if (recorder.PhantomMilliamperes is { } given && drawn > given)
            Fail(candidate, Constraint.Recorder, drawn.Value - given, "mA", Invariant($"both draw {drawn:0.#} mA of phantom current, {drawn - given:0.#} mA more than {recorder.Name} gives"));
        if (!wishes.Monitoring)
            return;
        if (recorder.DecodesForMonitoring is not { } decodes)
            candidate.NotKnown.Add($"whether {recorder.Name} decodes for the headphones not known");
        else if (!decodes)
            Fail(candidate, Constraint.Monitoring, null, "", $"{recorder.Name} cannot decode for the headphones");
    }

    private static void Fail(Candidate candidate, Constraint constraint, double? by, string unit, string text) => candidate.Shortfalls.Add(new(constraint, by, unit, text));
}
