using Athwart.Microphones.Levels;

namespace Athwart.Microphones.Power;

/// <summary>How long a set of batteries lasts with some of the phantom current drawn.</summary>
public static class BatteryTime
{
    /// <summary>Hours, with the power drawn taken to grow evenly with the phantom current: 1/h = 1/h0 + (current/full)·(1/h1 − 1/h0).</summary>
    /// <param name="hoursWithout">h0, hours without phantom, above 0.</param>
    /// <param name="hoursWithAll">h1, hours with the whole phantom current drawn, above 0.</param>
    /// <param name="drawnMilliamperes">The current drawn, from 0 to the whole.</param>
    /// <param name="allMilliamperes">The whole phantom current, above 0.</param>
    /// <exception cref="ArgumentOutOfRangeException">One of them is out of range.</exception>
    /// <remarks>An estimate from two figures: cold, age and kind of batteries can halve it.</remarks>
    public static double Hours(double hoursWithout, double hoursWithAll, double drawnMilliamperes, double allMilliamperes)
    {
        var without = 1 / Require.Positive(hoursWithout);
        var withAll = 1 / Require.Positive(hoursWithAll);
        var share = Require.Within(drawnMilliamperes, 0, Require.Positive(allMilliamperes)) / allMilliamperes;
        return 1 / (without + (share * (withAll - without)));
    }
}
