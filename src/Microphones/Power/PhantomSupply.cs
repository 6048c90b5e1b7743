using System.Globalization;
using Athwart.Microphones.Equipment;

namespace Athwart.Microphones.Power;

/// <summary>The phantom current two microphones draw from a recorder, in mA.</summary>
internal readonly record struct PhantomSupply(double? Drawn, double? Available)
{
    public bool? Suffices => Drawn == 0 ? true : Drawn is { } drawn && Available is { } available ? drawn <= available : null;

    public static PhantomSupply For(Recorder recorder, Microphone mid, Microphone side, List<string> reasons)
    {
        var drawn = PowerPlan.Known(mid.PhantomMilliamperes, $"The phantom current of {mid.Name} is not known: no phantom draw, no battery hours.", reasons)
            + PowerPlan.Known(side.PhantomMilliamperes, $"The phantom current of {side.Name} is not known: no phantom draw, no battery hours.", reasons);
        var supply = new PhantomSupply(drawn, recorder.PhantomMilliamperes);
        if (drawn > 0 && supply.Available is null)
            reasons.Add($"The phantom current of {recorder.Name} is not known: whether it suffices is not told.");
        if (supply.Suffices == false)
            reasons.Add(string.Create(CultureInfo.InvariantCulture, $"{recorder.Name} gives {supply.Available:0.##} mA of phantom current, the microphones draw {drawn:0.##} mA: feed one of them otherwise."));
        return supply;
    }

    public double? BatteryHours(Recorder recorder, List<string> reasons)
    {
        var without = PowerPlan.Known(recorder.BatteryHours, $"The battery hours of {recorder.Name} without phantom are not known: no battery hours.", reasons);
        if (without is null || Drawn is not { } drawn)
            return null;
        if (drawn == 0)
            return without;
        var withAll = PowerPlan.Known(recorder.BatteryHoursWithPhantom, $"The battery hours of {recorder.Name} with phantom are not known: no battery hours.", reasons);
        return withAll is { } hours && Suffices == true ? BatteryTime.Hours(without.Value, hours, drawn, Available!.Value) : null;
    }
}
