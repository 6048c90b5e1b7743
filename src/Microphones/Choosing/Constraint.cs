namespace Athwart.Microphones.Choosing;

/// <summary>What a pair may fail at.</summary>
public enum Constraint
{
    /// <summary>One unit cannot be mid and side at once.</summary>
    OneUnit = 0,

    /// <summary>No side level gives the wanted coverage.</summary>
    Coverage,

    /// <summary>What has to be bought costs more than there is.</summary>
    Budget,

    /// <summary>A price is in another currency than the budget.</summary>
    Currency,

    /// <summary>The loudest sound overloads a microphone.</summary>
    MicrophoneOverload,

    /// <summary>The loudest sound overloads an input at its lowest gain.</summary>
    InputOverload,

    /// <summary>The quietest wanted sound does not stand out from the noise.</summary>
    Quietest,

    /// <summary>The pair does not fit into the protection.</summary>
    Protection,

    /// <summary>Too heavy for the boom.</summary>
    Weight,

    /// <summary>The mid hears too wide in mono.</summary>
    MonoPickup,

    /// <summary>It does not reach the highest frequency.</summary>
    Highest,

    /// <summary>The recorder cannot decode for the headphones.</summary>
    Monitoring,

    /// <summary>The recorder has fewer than two inputs, or gives too little phantom current.</summary>
    Recorder,
}

/// <summary>One constraint that a pair fails, and by how much.</summary>
/// <param name="Constraint">Which.</param>
/// <param name="By">By how much, in <paramref name="Unit"/>; null where there is no how much.</param>
/// <param name="Unit">Such as 'dB', 'mm' or 'EUR'; empty without an amount.</param>
/// <param name="Text">One sentence without a full stop, for people.</param>
public sealed record Shortfall(Constraint Constraint, double? By, string Unit, string Text);
