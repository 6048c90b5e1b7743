namespace Athwart.Catalogue;

/// <summary>An effect as a search shows it.</summary>
/// <param name="Effect">The effect.</param>
/// <param name="TakeName">The take it is cut from.</param>
/// <param name="SampleRateHertz">The take's rate, for times.</param>
/// <param name="Session">The session of the take.</param>
/// <param name="SessionName">What the session is called.</param>
/// <param name="Date">Its day.</param>
/// <param name="Delivered">The delivery that holds it last; null when none does.</param>
public sealed record FoundEffect(Effect Effect, string TakeName, int SampleRateHertz, SessionId Session, string SessionName, DateOnly Date, DeliveryId? Delivered)
{
    /// <summary>Its length in seconds; 0 when the rate is not known.</summary>
    public double Seconds => SampleRateHertz > 0 ? (double)(Effect.Range.To.Value - Effect.Range.From.Value) / SampleRateHertz : 0;
}

/// <summary>What a search found.</summary>
/// <param name="Effects">The first of them, the newest first.</param>
/// <param name="Total">How many there are; the count stops at <paramref name="MostCounted"/>.</param>
/// <param name="MostCounted">Where counting stopped: so many or more.</param>
public sealed record FoundEffects(IReadOnlyList<FoundEffect> Effects, int Total, int MostCounted);
