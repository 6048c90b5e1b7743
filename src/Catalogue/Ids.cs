namespace Athwart.Catalogue;

/// <summary>Names one session in one library: 12 hexadecimal digits.</summary>
/// <param name="Value">The digits, lower case.</param>
public readonly record struct SessionId(string Value)
{
    /// <summary>An id no other session has.</summary>
    public static SessionId New() => new(Identity.New());

    /// <summary>The bare digits.</summary>
    public override string ToString() => Value;
}

/// <summary>Names one original file in one library: 12 hexadecimal digits.</summary>
/// <param name="Value">The digits, lower case.</param>
public readonly record struct FileId(string Value)
{
    /// <summary>An id no other file has.</summary>
    public static FileId New() => new(Identity.New());

    /// <summary>The bare digits.</summary>
    public override string ToString() => Value;
}

/// <summary>Names one take in one library: 12 hexadecimal digits.</summary>
/// <param name="Value">The digits, lower case.</param>
public readonly record struct TakeId(string Value)
{
    /// <summary>An id no other take has.</summary>
    public static TakeId New() => new(Identity.New());

    /// <summary>The bare digits.</summary>
    public override string ToString() => Value;
}

/// <summary>Names one effect in one library: 12 hexadecimal digits.</summary>
/// <param name="Value">The digits, lower case.</param>
public readonly record struct EffectId(string Value)
{
    /// <summary>An id no other effect has.</summary>
    public static EffectId New() => new(Identity.New());

    /// <summary>The bare digits.</summary>
    public override string ToString() => Value;
}

/// <summary>Names one delivery in one library: 12 hexadecimal digits.</summary>
/// <param name="Value">The digits, lower case.</param>
public readonly record struct DeliveryId(string Value)
{
    /// <summary>An id no other delivery has.</summary>
    public static DeliveryId New() => new(Identity.New());

    /// <summary>The bare digits.</summary>
    public override string ToString() => Value;
}

/// <summary>Names one rig profile in one library: 12 hexadecimal digits.</summary>
/// <param name="Value">The digits, lower case.</param>
public readonly record struct RigProfileId(string Value)
{
    /// <summary>An id no other profile has.</summary>
    public static RigProfileId New() => new(Identity.New());

    /// <summary>The bare digits.</summary>
    public override string ToString() => Value;
}
