namespace Athwart.Signals.Fades;

/// <summary>The shape of a fade: gain over the part x of the fade that has gone by, 0 to 1.</summary>
public enum FadeCurve
{
    /// <summary>sin²(πx/2): a fade in and a fade out add up to 1; no corner at either end.</summary>
    SineSquared = 0,

    /// <summary>x: adds up to 1; a corner at either end.</summary>
    Linear,

    /// <summary>sin(πx/2): the squares add up to 1, for sounds that have nothing to do with each other.</summary>
    ConstantPower,

    /// <summary>(1000^x − 1)/999: falls by as many decibels each moment, as a room does, from 0 to −60 dB and then silence.</summary>
    Exponential,
}
